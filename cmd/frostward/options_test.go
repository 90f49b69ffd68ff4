package main

import (
	"go/ast"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"github.com/spf13/cobra"
	"github.com/spf13/pflag"
	"github.com/stretchr/testify/assert"
)

var optionWord = regexp.MustCompile(`(?:^|[\s"(])--([a-z][a-z-]*[a-z])`)

// Every option that a message, a help text or an example of the program's source names is one that some command has.
func TestMessagesNameOptionsThatExist(t *testing.T) {
	has := map[string]bool{"help": true}
	var walk func(c *cobra.Command)
	walk = func(c *cobra.Command) {
		for _, flags := range []*pflag.FlagSet{c.Flags(), c.PersistentFlags()} {
			flags.VisitAll(func(f *pflag.Flag) { has[f.Name] = true })
		}
		for _, sub := range c.Commands() {
			walk(sub)
		}
	}
	walk(newRoot(&app{}))
	named := 0
	eachSource(t, func(_, file string, f *ast.File) {
		ast.Inspect(f, func(n ast.Node) bool {
			lit, ok := n.(*ast.BasicLit)
			if !ok || !strings.Contains(lit.Value, "--") {
				return true
			}
			text, err := strconv.Unquote(lit.Value)
			if err != nil || strings.Contains(text, "{ --") { // a style sheet's own
				return true
			}
			for _, m := range optionWord.FindAllStringSubmatch(text, -1) {
				named++
				assert.True(t, has[m[1]], "%s: --%s in %q", file, m[1], text)
			}
			return true
		})
	})
	assert.Greater(t, named, 100)
}
