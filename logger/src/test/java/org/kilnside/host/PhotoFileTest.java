package org.kilnside.host;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.awt.Color;
import java.awt.Graphics2D;
import java.awt.image.BufferedImage;
import java.io.ByteArrayInputStream;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.RandomAccessFile;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.Random;
import javax.imageio.ImageIO;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

class PhotoFileTest {
    @TempDir
    Path folder;

    /** Red on the left, blue on the right. */
    private static BufferedImage halves(int width, int height) {
        BufferedImage image = new BufferedImage(width, height, BufferedImage.TYPE_INT_RGB);
        Graphics2D g = image.createGraphics();
        g.setColor(Color.RED);
        g.fillRect(0, 0, width / 2, height);
        g.setColor(Color.BLUE);
        g.fillRect(width / 2, 0, width - width / 2, height);
        g.dispose();
        return image;
    }

    private Path written(BufferedImage image, String format) throws IOException {
        Path file = folder.resolve("bowls." + format);
        ImageIO.write(image, format, file.toFile());
        return file;
    }

    private static BufferedImage decoded(byte[] jpeg) throws IOException {
        return ImageIO.read(new ByteArrayInputStream(jpeg));
    }

    @ParameterizedTest
    @ValueSource(strings = {"jpg", "png", "gif", "bmp"})
    void aPhotoIsMadeSmallerAndKeepsItsShape(String format) throws IOException {
        PhotoFile photo = PhotoFile.read(written(halves(4096, 1024), format).toString());
        assertThat(photo.name()).isEqualTo("bowls." + format);
        assertThat(decoded(photo.picture()).getWidth()).isEqualTo(2048);
        assertThat(decoded(photo.picture()).getHeight()).isEqualTo(512);
        assertThat(decoded(photo.thumbnail()).getWidth()).isEqualTo(320);
        assertThat(new Color(decoded(photo.picture()).getRGB(100, 200)).getRed())
                .isGreaterThan(200);
    }

    @Test
    void aSmallPhotoStaysAsLargeAsItIs() throws IOException {
        PhotoFile photo = PhotoFile.read(written(halves(200, 90), "png").toString());
        assertThat(decoded(photo.picture()).getWidth()).isEqualTo(200);
        assertThat(decoded(photo.picture()).getHeight()).isEqualTo(90);
    }

    @Test
    void whatIsTransparentStandsOnWhite() throws IOException {
        PhotoFile photo = PhotoFile.read(written(new BufferedImage(50, 50, BufferedImage.TYPE_INT_ARGB), "png")
                .toString());
        assertThat(new Color(decoded(photo.picture()).getRGB(25, 25)).getGreen())
                .isGreaterThan(250);
    }

    /** Published: JEITA CP-3451 (Exif 2.2), 4.6.4 A, orientation: where row 0 and column 0 of the picture stand. */
    @ParameterizedTest
    @CsvSource({"1,left", "2,right", "3,right", "4,left", "5,top", "6,top", "7,bottom", "8,bottom"})
    void aPhotoStandsUprightHoweverTheCameraWasHeld(int orientation, String red) throws IOException {
        for (boolean littleEnd : new boolean[] {false, true}) {
            Path file = folder.resolve("held.jpg");
            ByteArrayOutputStream plain = new ByteArrayOutputStream();
            ImageIO.write(halves(200, 100), "jpeg", plain);
            Files.write(file, withOrientation(plain.toByteArray(), orientation, littleEnd));
            BufferedImage upright = decoded(PhotoFile.read(file.toString()).picture());
            int w = upright.getWidth();
            int h = upright.getHeight();
            assertThat(w > h).isEqualTo(orientation < 5);
            int rgb = switch (red) {
                case "left" -> upright.getRGB(5, h / 2);
                case "right" -> upright.getRGB(w - 5, h / 2);
                case "top" -> upright.getRGB(w / 2, 5);
                default -> upright.getRGB(w / 2, h - 5);
            };
            assertThat(new Color(rgb).getRed()).as(red).isGreaterThan(200);
        }
    }

    private static byte[] withOrientation(byte[] jpeg, int orientation, boolean littleEnd) {
        byte[] tiff = littleEnd
                ? new byte[] {'I', 'I', 42, 0, 8, 0, 0, 0, 1, 0, 0x12, 1, 3, 0, 1, 0, 0, 0, (byte) orientation, 0, 0, 0}
                : new byte[] {'M', 'M', 0, 42, 0, 0, 0, 8, 0, 1, 1, 0x12, 0, 3, 0, 0, 0, 1, 0, (byte) orientation, 0, 0
                };
        ByteArrayOutputStream out = new ByteArrayOutputStream();
        out.write(jpeg, 0, 2);
        int length = 2 + 6 + tiff.length;
        out.writeBytes(new byte[] {(byte) 0xFF, (byte) 0xE1, (byte) (length >> 8), (byte) length});
        out.writeBytes("Exif\0\0".getBytes(StandardCharsets.ISO_8859_1));
        out.writeBytes(tiff);
        out.write(jpeg, 2, jpeg.length - 2);
        return out.toByteArray();
    }

    @Test
    void aFileOfTwoHundredMegabytesIsRefusedWithoutReadingIt() throws IOException {
        Path file = folder.resolve("huge.jpg");
        try (RandomAccessFile sparse = new RandomAccessFile(file.toFile(), "rw")) {
            sparse.setLength(200L << 20);
        }
        refused(file.toString(), "huge.jpg is 200 MB; the book takes photos up to 50 MB");
    }

    @Test
    void aPictureOfMorePixelsThanMemoryIsRefusedByItsHead() throws IOException {
        ByteArrayOutputStream small = new ByteArrayOutputStream();
        ImageIO.write(halves(10, 10), "png", small);
        byte[] bytes = small.toByteArray();
        // Width and height stand at 16 and 20 of a PNG, big end first (W3C PNG, 11.2.2).
        bytes[17] = 1;
        bytes[21] = 1;
        Path file = Files.write(folder.resolve("wide.png"), bytes);
        refused(file.toString(), "pixels, more than can be read here");
    }

    @Test
    void whatIsNoPictureIsRefusedInASentence() throws IOException {
        Path text = Files.writeString(folder.resolve("notes.jpg"), "bung out until 600 °C");
        refused(text.toString(), "notes.jpg is no picture that can be read here");
        refused(Files.write(folder.resolve("empty.png"), new byte[0]).toString(), "is no picture");
        refused(folder.toString(), "There is no photo at");
        refused(folder.resolve("nowhere.jpg").toString(), "There is no photo at");
        refused("   ", "No photo was named");
        refused("a\0b", "is no name of a file");
    }

    /** Whatever a damaged file holds, it gives a picture or a sentence. */
    @Test
    void aDamagedPhotoGivesAPictureOrASentence() throws IOException {
        Random random = new Random(11);
        for (String format : new String[] {"jpg", "png", "gif", "bmp"}) {
            byte[] sound = Files.readAllBytes(written(halves(80, 60), format));
            for (int i = 0; i < 60; i++) {
                byte[] damaged =
                        random.nextBoolean() ? Arrays.copyOf(sound, random.nextInt(sound.length)) : sound.clone();
                for (int k = 0; k < 4 && damaged.length > 0; k++) {
                    damaged[random.nextInt(damaged.length)] = (byte) random.nextInt();
                }
                Path file = Files.write(folder.resolve("damaged." + format), damaged);
                try {
                    assertThat(PhotoFile.read(file.toString()).picture()).isNotEmpty();
                } catch (PhotoRefusedException e) {
                    assertThat(e.getMessage()).endsWith(".").doesNotContain("Exception");
                }
            }
        }
    }

    private static void refused(String file, String words) {
        assertThatThrownBy(() -> PhotoFile.read(file))
                .isInstanceOf(PhotoRefusedException.class)
                .hasMessageContaining(words);
    }
}
