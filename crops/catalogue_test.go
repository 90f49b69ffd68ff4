package crops

import "testing"

func TestBuiltinReads(t *testing.T) {
	if n := len(Builtin().All()); n < 45 {
		t.Fatal(n)
	}
}
