package org.kilnside.sensor;

import java.util.List;

/**
 * The coefficients of the ITS-90 reference functions, digit by digit as published.
 *
 * <p>E = Σ cᵢ·tⁱ, E in mV, t in °C, reference junction at 0 °C; type K from 0 °C up adds a₀·exp(a₁·(t − a₂)²).
 * Source: NIST Monograph 175 (Burns et al., 1993) and NIST Standard Reference Database 60, adopted by IEC 60584-1 and
 * ASTM E230; two independent digital copies were compared digit by digit.
 */
final class ReferenceCoefficients {
    private ReferenceCoefficients() {}

    /** The pieces of a type's function, coldest first; neighbours meet at their common temperature. */
    static List<ReferencePiece> pieces(ThermocoupleType type) {
        return switch (type) {
            case K -> List.of(K1, K2);
            case N -> List.of(N1, N2);
            case S -> List.of(S1, S2, S3);
            case R -> List.of(R1, R2, R3);
            case B -> List.of(B1, B2);
            case J -> List.of(J1, J2);
            case T -> List.of(T1, T2);
            case E -> List.of(E1, E2);
        };
    }

    private static final ReferencePiece K1 = new ReferencePiece(
            -270.0,
            0.0,
            new double[] {
                0.000000000000E+00,
                0.394501280250E-01,
                0.236223735980E-04,
                -0.328589067840E-06,
                -0.499048287770E-08,
                -0.675090591730E-10,
                -0.574103274280E-12,
                -0.310888728940E-14,
                -0.104516093650E-16,
                -0.198892668780E-19,
                -0.163226974860E-22,
            },
            ReferencePiece.Bell.NONE);

    private static final ReferencePiece K2 = new ReferencePiece(
            0.0,
            1372.0,
            new double[] {
                -0.176004136860E-01,
                0.389212049750E-01,
                0.185587700320E-04,
                -0.994575928740E-07,
                0.318409457190E-09,
                -0.560728448890E-12,
                0.560750590590E-15,
                -0.320207200030E-18,
                0.971511471520E-22,
                -0.121047212750E-25,
            },
            new ReferencePiece.Bell(0.118597600000E+00, -0.118343200000E-03, 0.126968600000E+03));

    private static final ReferencePiece N1 = new ReferencePiece(
            -270.0,
            0.0,
            new double[] {
                0.000000000000E+00,
                0.261591059620E-01,
                0.109574842280E-04,
                -0.938411115540E-07,
                -0.464120397590E-10,
                -0.263033577160E-11,
                -0.226534380030E-13,
                -0.760893007910E-16,
                -0.934196678350E-19,
            },
            ReferencePiece.Bell.NONE);

    private static final ReferencePiece N2 = new ReferencePiece(
            0.0,
            1300.0,
            new double[] {
                0.000000000000E+00,
                0.259293946010E-01,
                0.157101418800E-04,
                0.438256272370E-07,
                -0.252611697940E-09,
                0.643118193390E-12,
                -0.100634715190E-14,
                0.997453389920E-18,
                -0.608632456070E-21,
                0.208492293390E-24,
                -0.306821961510E-28,
            },
            ReferencePiece.Bell.NONE);

    private static final ReferencePiece S1 = new ReferencePiece(
            -50.0,
            1064.18,
            new double[] {
                0.000000000000E+00,
                0.540313308631E-02,
                0.125934289740E-04,
                -0.232477968689E-07,
                0.322028823036E-10,
                -0.331465196389E-13,
                0.255744251786E-16,
                -0.125068871393E-19,
                0.271443176145E-23,
            },
            ReferencePiece.Bell.NONE);

    private static final ReferencePiece S2 = new ReferencePiece(
            1064.18,
            1664.5,
            new double[] {
                0.132900444085E+01, 0.334509311344E-02, 0.654805192818E-05, -0.164856259209E-08, 0.129989605174E-13,
            },
            ReferencePiece.Bell.NONE);

    private static final ReferencePiece S3 = new ReferencePiece(
            1664.5,
            1768.1,
            new double[] {
                0.146628232636E+03, -0.258430516752E+00, 0.163693574641E-03, -0.330439046987E-07, -0.943223690612E-14,
            },
            ReferencePiece.Bell.NONE);

    private static final ReferencePiece R1 = new ReferencePiece(
            -50.0,
            1064.18,
            new double[] {
                0.000000000000E+00,
                0.528961729765E-02,
                0.139166589782E-04,
                -0.238855693017E-07,
                0.356916001063E-10,
                -0.462347666298E-13,
                0.500777441034E-16,
                -0.373105886191E-19,
                0.157716482367E-22,
                -0.281038625251E-26,
            },
            ReferencePiece.Bell.NONE);

    private static final ReferencePiece R2 = new ReferencePiece(
            1064.18,
            1664.5,
            new double[] {
                0.295157925316E+01,
                -0.252061251332E-02,
                0.159564501865E-04,
                -0.764085947576E-08,
                0.205305291024E-11,
                -0.293359668173E-15,
            },
            ReferencePiece.Bell.NONE);

    private static final ReferencePiece R3 = new ReferencePiece(
            1664.5,
            1768.1,
            new double[] {
                0.152232118209E+03, -0.268819888545E+00, 0.171280280471E-03, -0.345895706453E-07, -0.934633971046E-14,
            },
            ReferencePiece.Bell.NONE);

    private static final ReferencePiece B1 = new ReferencePiece(
            0.0,
            630.615,
            new double[] {
                0.000000000000E+00,
                -0.246508183460E-03,
                0.590404211710E-05,
                -0.132579316360E-08,
                0.156682919010E-11,
                -0.169445292400E-14,
                0.629903470940E-18,
            },
            ReferencePiece.Bell.NONE);

    private static final ReferencePiece B2 = new ReferencePiece(
            630.615,
            1820.0,
            new double[] {
                -0.389381686210E+01,
                0.285717474700E-01,
                -0.848851047850E-04,
                0.157852801640E-06,
                -0.168353448640E-09,
                0.111097940130E-12,
                -0.445154310330E-16,
                0.989756408210E-20,
                -0.937913302890E-24,
            },
            ReferencePiece.Bell.NONE);

    private static final ReferencePiece J1 = new ReferencePiece(
            -210.0,
            760.0,
            new double[] {
                0.000000000000E+00,
                0.503811878150E-01,
                0.304758369300E-04,
                -0.856810657200E-07,
                0.132281952950E-09,
                -0.170529583370E-12,
                0.209480906970E-15,
                -0.125383953360E-18,
                0.156317256970E-22,
            },
            ReferencePiece.Bell.NONE);

    private static final ReferencePiece J2 = new ReferencePiece(
            760.0,
            1200.0,
            new double[] {
                0.296456256810E+03,
                -0.149761277860E+01,
                0.317871039240E-02,
                -0.318476867010E-05,
                0.157208190040E-08,
                -0.306913690560E-12,
            },
            ReferencePiece.Bell.NONE);

    private static final ReferencePiece T1 = new ReferencePiece(
            -270.0,
            0.0,
            new double[] {
                0.000000000000E+00, 0.387481063640E-01, 0.441944343470E-04, 0.118443231050E-06, 0.200329735540E-07,
                0.901380195590E-09, 0.226511565930E-10, 0.360711542050E-12, 0.384939398830E-14, 0.282135219250E-16,
                0.142515947790E-18, 0.487686622860E-21, 0.107955392700E-23, 0.139450270620E-26, 0.797951539270E-30,
            },
            ReferencePiece.Bell.NONE);

    private static final ReferencePiece T2 = new ReferencePiece(
            0.0,
            400.0,
            new double[] {
                0.000000000000E+00,
                0.387481063640E-01,
                0.332922278800E-04,
                0.206182434040E-06,
                -0.218822568460E-08,
                0.109968809280E-10,
                -0.308157587720E-13,
                0.454791352900E-16,
                -0.275129016730E-19,
            },
            ReferencePiece.Bell.NONE);

    private static final ReferencePiece E1 = new ReferencePiece(
            -270.0,
            0.0,
            new double[] {
                0.000000000000E+00,
                0.586655087080E-01,
                0.454109771240E-04,
                -0.779980486860E-06,
                -0.258001608430E-07,
                -0.594525830570E-09,
                -0.932140586670E-11,
                -0.102876055340E-12,
                -0.803701236210E-15,
                -0.439794973910E-17,
                -0.164147763550E-19,
                -0.396736195160E-22,
                -0.558273287210E-25,
                -0.346578420130E-28,
            },
            ReferencePiece.Bell.NONE);

    private static final ReferencePiece E2 = new ReferencePiece(
            0.0,
            1000.0,
            new double[] {
                0.000000000000E+00,
                0.586655087100E-01,
                0.450322755820E-04,
                0.289084072120E-07,
                -0.330568966520E-09,
                0.650244032700E-12,
                -0.191974955040E-15,
                -0.125366004970E-17,
                0.214892175690E-20,
                -0.143880417820E-23,
                0.359608994810E-27,
            },
            ReferencePiece.Bell.NONE);
}
