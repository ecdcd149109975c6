package org.kilnside.link.share;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.security.SecureRandom;
import java.util.HashSet;
import java.util.Set;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class TokenTest {
    private final SecureRandom chance = new SecureRandom();

    @Test
    void isTypedInSevenGroupsOfFourAndReadBack() {
        for (int i = 0; i < 1_000; i++) {
            Token token = Token.random(chance);
            assertThat(token.typed()).matches("([0-9A-HJKMNP-TV-Z]{4}-){6}[0-9A-HJKMNP-TV-Z]{4}");
            assertThat(Token.parse(token.typed())).isEqualTo(token);
        }
    }

    @Test
    void isRandomInAllOfIts128Bits() {
        byte[] ever = new byte[16];
        byte[] always = new byte[16];
        java.util.Arrays.fill(always, (byte) 0xFF);
        Set<String> seen = new HashSet<>();
        for (int i = 0; i < 200; i++) {
            Token token = Token.random(chance);
            seen.add(token.typed());
            for (int at = 0; at < 16; at++) {
                ever[at] |= token.bytes()[at];
                always[at] &= token.bytes()[at];
            }
        }
        assertThat(seen).hasSize(200);
        assertThat(ever).containsOnly((byte) 0xFF);
        assertThat(always).containsOnly((byte) 0);
    }

    @Test
    void isReadHoweverItIsTyped() {
        Token token = Token.random(chance);
        String typed = token.typed();
        assertThat(Token.parse(typed.toLowerCase(java.util.Locale.ROOT).replace('-', ' ')))
                .isEqualTo(token);
        assertThat(Token.parse(" " + typed.replace("-", "") + "\n")).isEqualTo(token);
        assertThat(Token.parse(typed.replace('0', 'o').replace('1', 'l'))).isEqualTo(token);
    }

    @Test
    void oneWrongCharacterIsFoundBeforeItIsSent() {
        int passed = 0;
        String alphabet = "0123456789ABCDEFGHJKMNPQRSTVWXYZ";
        for (int i = 0; i < 2_000; i++) {
            StringBuilder typed = new StringBuilder(Token.random(chance).typed().replace("-", ""));
            int at = chance.nextInt(28);
            char other = alphabet.charAt((alphabet.indexOf(typed.charAt(at)) + 1 + chance.nextInt(31)) % 32);
            typed.setCharAt(at, other);
            try {
                Token.parse(typed.toString());
                passed++;
            } catch (IllegalArgumentException e) {
                assertThat(e).hasMessageContaining("compare the seven groups");
            }
        }
        // Independent: 12 bits of check let 2000/4096 through on average; 8 would be one case in 10^7.
        assertThat(passed).isLessThan(8);
    }

    @ParameterizedTest
    @ValueSource(strings = {"", "7K2M", "7K2M-7K2M-7K2M-7K2M-7K2M-7K2M-7K2M-7K2M"})
    void anotherLengthIsSaid(String typed) {
        assertThatThrownBy(() -> Token.parse(typed)).hasMessageContaining("28 characters");
    }

    @Test
    void aCharacterThatIsNoneIsSaid() {
        assertThatThrownBy(() -> Token.parse("7K2M-7K2M-7K2M-7K2M-7K2M-7K2M-7K2ü"))
                .hasMessageContaining("has no \"Ü\"");
    }

    @Test
    void isNeverWrittenWhereSomebodyPrintsIt() {
        Token token = Token.random(chance);
        assertThat(token + " " + TokenHash.of(token, chance))
                .doesNotContain(token.typed().substring(0, 4));
    }

    @Test
    void itsSumKnowsItAndNoOther() {
        Token token = Token.random(chance);
        TokenHash hash = TokenHash.of(token, chance);
        assertThat(hash.matches(token)).isTrue();
        assertThat(hash.matches(Token.random(chance))).isFalse();
        assertThat(TokenHash.of(token, chance).sumHex()).isNotEqualTo(hash.sumHex());
    }
}
