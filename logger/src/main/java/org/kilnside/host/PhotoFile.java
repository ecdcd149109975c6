package org.kilnside.host;

import java.awt.Color;
import java.awt.Graphics2D;
import java.awt.RenderingHints;
import java.awt.image.BufferedImage;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.InvalidPathException;
import java.nio.file.Path;
import java.util.Iterator;
import javax.imageio.IIOImage;
import javax.imageio.ImageIO;
import javax.imageio.ImageReadParam;
import javax.imageio.ImageReader;
import javax.imageio.ImageWriteParam;
import javax.imageio.ImageWriter;
import javax.imageio.stream.ImageInputStream;
import javax.imageio.stream.MemoryCacheImageOutputStream;

/**
 * A photo read from a file and made smaller: upright, at most {@value #LONGEST_SIDE} pixels a side, as a JPEG, with a
 * thumbnail. The file is looked at before it is read: how large it is, what it is, how many pixels it has.
 *
 * @param name what its file is called
 * @param picture a JPEG
 * @param thumbnail a small JPEG
 */
public record PhotoFile(String name, byte[] picture, byte[] thumbnail) {
    /** Longer sides are made this long, pixels: enough to see a pinhole on a bowl. */
    public static final int LONGEST_SIDE = 2048;

    private static final int THUMBNAIL_SIDE = 320;
    private static final long LARGEST_FILE = 50L << 20;
    private static final long MOST_PIXELS = 200_000_000L;
    private static final float QUALITY = 0.85f;

    /**
     * Reads a photo.
     *
     * @param written where it is, as a person wrote or chose it
     * @throws PhotoRefusedException when it is no picture this program reads, or too large
     */
    public static PhotoFile read(String written) {
        Path file = path(written);
        try {
            if (!Files.isRegularFile(file)) {
                throw new PhotoRefusedException("There is no photo at " + file + ": choose a file that is there.");
            }
            long size = Files.size(file);
            if (size > LARGEST_FILE) {
                throw new PhotoRefusedException("The photo " + file.getFileName() + " is " + (size >> 20)
                        + " MB; the book takes photos up to " + (LARGEST_FILE >> 20) + " MB: save it smaller first.");
            }
            byte[] bytes = Files.readAllBytes(file);
            BufferedImage image = upright(decoded(file, bytes), JpegOrientation.of(bytes));
            return new PhotoFile(
                    file.getFileName().toString(),
                    jpeg(fitted(image, LONGEST_SIDE)),
                    jpeg(fitted(image, THUMBNAIL_SIDE)));
        } catch (IOException e) {
            throw noPicture(file, e);
        }
    }

    private static Path path(String written) {
        String plain = written.strip().replaceAll("^\"(.*)\"$", "$1");
        try {
            if (plain.isEmpty()) {
                throw new PhotoRefusedException("No photo was named: choose a file.");
            }
            return Path.of(plain).toAbsolutePath().normalize();
        } catch (InvalidPathException e) {
            throw new PhotoRefusedException("\"" + plain + "\" is no name of a file: choose a photo.", e);
        }
    }

    private static PhotoRefusedException noPicture(Path file, Exception cause) {
        return new PhotoRefusedException(
                file.getFileName()
                        + " is no picture that can be read here: photos are JPEG, PNG, GIF or BMP files; save it as JPEG"
                        + " first.",
                cause);
    }

    /** Of a picture with more pixels than wanted only some are read: a large photo needs no large memory. */
    private static BufferedImage decoded(Path file, byte[] bytes) throws IOException {
        try (ImageInputStream stream = ImageIO.createImageInputStream(new java.io.ByteArrayInputStream(bytes))) {
            Iterator<ImageReader> readers = ImageIO.getImageReaders(stream);
            if (!readers.hasNext()) {
                throw new IOException("no reader knows its first bytes");
            }
            ImageReader reader = readers.next();
            try {
                reader.setInput(stream, true, true);
                long width = reader.getWidth(0);
                long height = reader.getHeight(0);
                if (width * height > MOST_PIXELS) {
                    throw new PhotoRefusedException("The photo " + file.getFileName() + " has " + width + " × " + height
                            + " pixels, more than can be read here: save it smaller first.");
                }
                ImageReadParam some = reader.getDefaultReadParam();
                int every = (int) Math.max(1, Math.max(width, height) / (LONGEST_SIDE * 2L));
                some.setSourceSubsampling(every, every, 0, 0);
                return reader.read(0, some);
            } finally {
                reader.dispose();
            }
        } catch (PhotoRefusedException e) {
            throw e;
        } catch (RuntimeException e) {
            // A damaged picture makes the readers stumble in many ways.
            throw noPicture(file, e);
        }
    }

    private static BufferedImage upright(BufferedImage image, JpegOrientation orientation) {
        int width = image.getWidth();
        int height = image.getHeight();
        BufferedImage turned = orientation.swapsSides()
                ? new BufferedImage(height, width, BufferedImage.TYPE_INT_RGB)
                : new BufferedImage(width, height, BufferedImage.TYPE_INT_RGB);
        Graphics2D g = turned.createGraphics();
        g.setColor(Color.WHITE);
        g.fillRect(0, 0, turned.getWidth(), turned.getHeight());
        g.drawImage(image, orientation.upright(width, height), null);
        g.dispose();
        return turned;
    }

    private static BufferedImage fitted(BufferedImage image, int longest) {
        int side = Math.max(image.getWidth(), image.getHeight());
        if (side <= longest) {
            return image;
        }
        BufferedImage from = image;
        // By halves first: a picture made much smaller in one step loses what lies between.
        while (Math.max(from.getWidth(), from.getHeight()) > longest * 2) {
            from = scaled(from, (from.getWidth() + 1) / 2, (from.getHeight() + 1) / 2);
        }
        double share = (double) longest / Math.max(from.getWidth(), from.getHeight());
        return scaled(from, (int) Math.max(1, Math.round(from.getWidth() * share)), (int)
                Math.max(1, Math.round(from.getHeight() * share)));
    }

    private static BufferedImage scaled(BufferedImage image, int width, int height) {
        BufferedImage smaller = new BufferedImage(width, height, BufferedImage.TYPE_INT_RGB);
        Graphics2D g = smaller.createGraphics();
        g.setRenderingHint(RenderingHints.KEY_INTERPOLATION, RenderingHints.VALUE_INTERPOLATION_BILINEAR);
        g.drawImage(image, 0, 0, width, height, null);
        g.dispose();
        return smaller;
    }

    private static byte[] jpeg(BufferedImage image) throws IOException {
        ImageWriter writer = ImageIO.getImageWritersByFormatName("jpeg").next();
        ByteArrayOutputStream bytes = new ByteArrayOutputStream();
        try (MemoryCacheImageOutputStream out = new MemoryCacheImageOutputStream(bytes)) {
            ImageWriteParam how = writer.getDefaultWriteParam();
            how.setCompressionMode(ImageWriteParam.MODE_EXPLICIT);
            how.setCompressionQuality(QUALITY);
            writer.setOutput(out);
            writer.write(null, new IIOImage(image, null, null), how);
        } finally {
            writer.dispose();
        }
        return bytes.toByteArray();
    }

    @Override
    public boolean equals(Object other) {
        return other instanceof PhotoFile photo
                && name.equals(photo.name)
                && java.util.Arrays.equals(picture, photo.picture);
    }

    @Override
    public int hashCode() {
        return name.hashCode();
    }

    @Override
    public String toString() {
        return "photo " + name;
    }
}
