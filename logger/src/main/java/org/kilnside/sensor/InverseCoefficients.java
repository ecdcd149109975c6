package org.kilnside.sensor;

import java.util.List;

/**
 * The approximate inverse functions, t = Σ dᵢ·Eⁱ, E in mV, t in °C: good to a few hundredths of a degree, and so the
 * start from which the reference function is inverted exactly.
 *
 * <p>Source: NIST Monograph 175 (Burns et al., 1993) and NIST Standard Reference Database 60. The published ranges do
 * not reach below −200 °C (K, N, T, E) or 250 °C (B). For R and S the second and third piece overlap from 1064 to
 * 1200 °C; the second is used as far as it goes.
 */
final class InverseCoefficients {
    private InverseCoefficients() {}

    /** The pieces of a type's approximate inverse, lowest voltage first. */
    static List<InversePiece> pieces(ThermocoupleType type) {
        return switch (type) {
            case K -> List.of(K1, K2, K3);
            case N -> List.of(N1, N2, N3);
            case S -> List.of(S1, S2, S3, S4);
            case R -> List.of(R1, R2, R3, R4);
            case B -> List.of(B1, B2);
            case J -> List.of(J1, J2, J3);
            case T -> List.of(T1, T2);
            case E -> List.of(E1, E2);
        };
    }

    private static final InversePiece K1 = new InversePiece(-5.891, 0.000, new double[] {
        0.0000000E+00,
        2.5173462E+01,
        -1.1662878E+00,
        -1.0833638E+00,
        -8.9773540E-01,
        -3.7342377E-01,
        -8.6632643E-02,
        -1.0450598E-02,
        -5.1920577E-04,
    });

    private static final InversePiece K2 = new InversePiece(0.000, 20.644, new double[] {
        0.000000E+00,
        2.508355E+01,
        7.860106E-02,
        -2.503131E-01,
        8.315270E-02,
        -1.228034E-02,
        9.804036E-04,
        -4.413030E-05,
        1.057734E-06,
        -1.052755E-08,
    });

    private static final InversePiece K3 = new InversePiece(20.644, 54.886, new double[] {
        -1.318058E+02, 4.830222E+01, -1.646031E+00, 5.464731E-02, -9.650715E-04, 8.802193E-06, -3.110810E-08,
    });

    private static final InversePiece N1 = new InversePiece(-3.990, 0.000, new double[] {
        0.0000000E+00,
        3.8436847E+01,
        1.1010485E+00,
        5.2229312E+00,
        7.2060525E+00,
        5.8488586E+00,
        2.7754916E+00,
        7.7075166E-01,
        1.1582665E-01,
        7.3138868E-03,
    });

    private static final InversePiece N2 = new InversePiece(0.000, 20.613, new double[] {
        0.00000E+00, 3.86896E+01, -1.08267E+00, 4.70205E-02, -2.12169E-06, -1.17272E-04, 5.39280E-06, -7.98156E-08,
    });

    private static final InversePiece N3 = new InversePiece(20.613, 47.513, new double[] {
        1.972485E+01, 3.300943E+01, -3.915159E-01, 9.855391E-03, -1.274371E-04, 7.767022E-07,
    });

    private static final InversePiece S1 = new InversePiece(-0.235, 1.874, new double[] {
        0.00000000E+00,
        1.84949460E+02,
        -8.00504062E+01,
        1.02237430E+02,
        -1.52248592E+02,
        1.88821343E+02,
        -1.59085941E+02,
        8.23027880E+01,
        -2.34181944E+01,
        2.79786260E+00,
    });

    private static final InversePiece S2 = new InversePiece(1.874, 11.950, new double[] {
        1.291507177E+01,
        1.466298863E+02,
        -1.534713402E+01,
        3.145945973E+00,
        -4.163257839E-01,
        3.187963771E-02,
        -1.291637500E-03,
        2.183475087E-05,
        -1.447379511E-07,
        8.211272125E-09,
    });

    private static final InversePiece S3 = new InversePiece(10.332, 17.536, new double[] {
        -8.087801117E+01, 1.621573104E+02, -8.536869453E+00, 4.719686976E-01, -1.441693666E-02, 2.081618890E-04,
    });

    private static final InversePiece S4 = new InversePiece(17.536, 18.693, new double[] {
        5.333875126E+04, -1.235892298E+04, 1.092657613E+03, -4.265693686E+01, 6.247205420E-01,
    });

    private static final InversePiece R1 = new InversePiece(-0.226, 1.923, new double[] {
        0.0000000E+00,
        1.8891380E+02,
        -9.3835290E+01,
        1.3068619E+02,
        -2.2703580E+02,
        3.5145659E+02,
        -3.8953900E+02,
        2.8239471E+02,
        -1.2607281E+02,
        3.1353611E+01,
        -3.3187769E+00,
    });

    private static final InversePiece R2 = new InversePiece(1.923, 13.228, new double[] {
        1.334584505E+01,
        1.472644573E+02,
        -1.844024844E+01,
        4.031129726E+00,
        -6.249428360E-01,
        6.468412046E-02,
        -4.458750426E-03,
        1.994710149E-04,
        -5.313401790E-06,
        6.481976217E-08,
    });

    private static final InversePiece R3 = new InversePiece(11.361, 19.739, new double[] {
        -8.199599416E+01, 1.553962042E+02, -8.342197663E+00, 4.279433549E-01, -1.191577910E-02, 1.492290091E-04,
    });

    private static final InversePiece R4 = new InversePiece(19.739, 21.103, new double[] {
        3.406177836E+04, -7.023729171E+03, 5.582903813E+02, -1.952394635E+01, 2.560740231E-01,
    });

    private static final InversePiece B1 = new InversePiece(0.291, 2.431, new double[] {
        9.8423321E+01,
        6.9971500E+02,
        -8.4765304E+02,
        1.0052644E+03,
        -8.3345952E+02,
        4.5508542E+02,
        -1.5523037E+02,
        2.9886750E+01,
        -2.4742860E+00,
    });

    private static final InversePiece B2 = new InversePiece(2.431, 13.820, new double[] {
        2.1315071E+02,
        2.8510504E+02,
        -5.2742887E+01,
        9.9160804E+00,
        -1.2965303E+00,
        1.1195870E-01,
        -6.0625199E-03,
        1.8661696E-04,
        -2.4878585E-06,
    });

    private static final InversePiece J1 = new InversePiece(-8.095, 0.000, new double[] {
        0.0000000E+00,
        1.9528268E+01,
        -1.2286185E+00,
        -1.0752178E+00,
        -5.9086933E-01,
        -1.7256713E-01,
        -2.8131513E-02,
        -2.3963370E-03,
        -8.3823321E-05,
    });

    private static final InversePiece J2 = new InversePiece(0.000, 42.919, new double[] {
        0.000000E+00,
        1.978425E+01,
        -2.001204E-01,
        1.036969E-02,
        -2.549687E-04,
        3.585153E-06,
        -5.344285E-08,
        5.099890E-10,
    });

    private static final InversePiece J3 = new InversePiece(42.919, 69.553, new double[] {
        -3.11358187E+03, 3.00543684E+02, -9.94773230E+00, 1.70276630E-01, -1.43033468E-03, 4.73886084E-06,
    });

    private static final InversePiece T1 = new InversePiece(-5.603, 0.000, new double[] {
        0.0000000E+00,
        2.5949192E+01,
        -2.1316967E-01,
        7.9018692E-01,
        4.2527777E-01,
        1.3304473E-01,
        2.0241446E-02,
        1.2668171E-03,
    });

    private static final InversePiece T2 = new InversePiece(0.000, 20.872, new double[] {
        0.000000E+00, 2.592800E+01, -7.602961E-01, 4.637791E-02, -2.165394E-03, 6.048144E-05, -7.293422E-07,
    });

    private static final InversePiece E1 = new InversePiece(-8.825, 0.000, new double[] {
        0.0000000E+00,
        1.6977288E+01,
        -4.3514970E-01,
        -1.5859697E-01,
        -9.2502871E-02,
        -2.6084314E-02,
        -4.1360199E-03,
        -3.4034030E-04,
        -1.1564890E-05,
    });

    private static final InversePiece E2 = new InversePiece(0.000, 76.373, new double[] {
        0.0000000E+00,
        1.7057035E+01,
        -2.3301759E-01,
        6.5435585E-03,
        -7.3562749E-05,
        -1.7896001E-06,
        8.4036165E-08,
        -1.3735879E-09,
        1.0629823E-11,
        -3.2447087E-14,
    });
}
