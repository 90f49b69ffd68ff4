package table

import (
	"bytes"
	"fmt"
	"io"
	"strings"

	"github.com/olekukonko/tablewriter"
	"github.com/olekukonko/tablewriter/renderer"
)

// writeMarkdown prints every column, unwrapped: a wrapped cell would become several
// rows.
func (t Table) writeMarkdown(w io.Writer) error {
	var b bytes.Buffer
	if t.Title != "" {
		fmt.Fprintf(&b, "**%s**\n\n", escapeMarkdown(t.Title))
	}
	cell := func(c Cell, _ layout) string { return escapeMarkdown(c.Text) }
	heading := func(l layout) string { return escapeMarkdown(t.Columns[l.column].heading()) }
	err := t.render(&b, t.layouts(), heading, cell, tablewriter.WithRenderer(renderer.NewMarkdown()))
	if err != nil {
		return err
	}
	for _, n := range t.Notes {
		fmt.Fprintf(&b, "\n%s\n", escapeMarkdown(n))
	}
	_, err = w.Write(b.Bytes())
	return err
}

// escapeMarkdown keeps a text from being taken for marks of Markdown or for HTML. The
// renderer escapes nothing.
func escapeMarkdown(s string) string { return markdownEscapes.Replace(Safe(s)) }

var markdownEscapes = strings.NewReplacer(
	`\`, `\\`, "|", `\|`, "`", "\\`", "*", `\*`, "_", `\_`, "[", `\[`, "]", `\]`,
	"<", "&lt;", ">", "&gt;", "&", "&amp;")
