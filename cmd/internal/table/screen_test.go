package table

import (
	"bytes"
	"testing"
	"unicode"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

func TestScreen(t *testing.T) {
	for in, want := range map[string]string{
		"a\tb\nc":             "a\tb\nc",
		"frost, −2 °C, Ærø 日": "frost, −2 °C, Ærø 日",
		"\x1b[31mred\x1b[0m":  "\ufffd[31mred\ufffd[0m",
		"over\rwritten":       "over\ufffdwritten",
		"END:VCALENDAR\r\n":   "END:VCALENDAR\r\n",
		"\u009b31m":           "\ufffd31m", // CSI as one character
		"\x00\x07\x7f":        "\ufffd\ufffd\ufffd",
		"ab\u202edc":          "ab\ufffddc",
		"half \xe2\x82":       "half \ufffd",
		"bad \xff byte":       "bad \ufffd byte",
		"at the end\r":        "at the end\ufffd",
	} {
		for cut := range len(in) + 1 { // in one piece, and in two, wherever they part
			var b bytes.Buffer
			p := NewScreen(&b)
			for _, part := range []string{in[:cut], in[cut:]} {
				n, err := p.Write([]byte(part))
				require.NoError(t, err)
				require.Equal(t, len(part), n)
			}
			require.NoError(t, p.Flush())
			assert.Equal(t, want, b.String(), "%q cut at %d", in, cut)
		}
	}
}

// Whatever is written, in whatever pieces, nothing but line ends and tabs of all control characters comes out.
func TestScreenPassesNoControl(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var b bytes.Buffer
		p := NewScreen(&b)
		for _, part := range rapid.SliceOf(rapid.SliceOf(rapid.Byte())).Draw(t, "parts") {
			p.Write(part)
		}
		p.Flush()
		text := bytes.ReplaceAll(b.Bytes(), []byte("\r\n"), []byte("\n"))
		for _, r := range string(text) {
			if r != '\n' && r != '\t' && unicode.IsControl(r) {
				t.Fatalf("%q passed", r)
			}
		}
	})
}
