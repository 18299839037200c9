package book

import (
	"io"
	"strings"

	"parewell/recipes/words"
)

// WriteMarkdown writes the page as Markdown (CommonMark with tables). A text's
// own marks are escaped, so that it reads as it was written.
func (p *Page) WriteMarkdown(w io.Writer) error {
	var b strings.Builder
	p.markdown(&b, 1)
	_, err := io.WriteString(w, b.String())
	return err
}

// markdown adds the page with its title at a level of heading.
func (p *Page) markdown(b *strings.Builder, level int) {
	for _, x := range p.parts() {
		if x.head != "" {
			b.WriteString(hashes(level+1) + escape(x.head) + "\n\n")
		}
		for i := range x.blocks {
			markdownBlock(b, &x.blocks[i], level)
		}
	}
}

func hashes(n int) string { return strings.Repeat("#", n) + " " }

// marks are what Markdown would take for its own.
var marks = strings.NewReplacer(`\`, `\\`, "`", "\\`", "*", `\*`, "_", `\_`, "[", `\[`, "]", `\]`, "<", `\<`, ">", `\>`, "#", `\#`, "|", `\|`, "~", `\~`)

// escape keeps a text one line of plain words.
func escape(s string) string {
	s = marks.Replace(oneLine(s))
	if s != "" && strings.ContainsRune("+-=", rune(s[0])) {
		return `\` + s
	}
	n := strings.IndexFunc(s, func(r rune) bool { return r < '0' || r > '9' })
	if n > 0 && n < 10 && strings.ContainsRune(".)", rune(s[n])) && (n+1 == len(s) || s[n+1] == ' ') {
		return s[:n] + `\` + s[n:] // "1. " would begin a list, "8.8 g" does not
	}
	return s
}

func markdownBlock(b *strings.Builder, x *block, level int) {
	switch x.kind {
	case paragraph:
		switch x.style {
		case styleTitle:
			b.WriteString(hashes(level))
		case stylePart:
			b.WriteString(hashes(level + 2))
		case styleVersion, styleYield:
			b.WriteString("**" + escape(x.text) + "**\n\n")
			return
		}
		b.WriteString(escape(x.text) + "\n\n")
	case bullets:
		for _, s := range x.items {
			b.WriteString("- " + escape(s) + "\n")
		}
		b.WriteString("\n")
	case numbers:
		for i, s := range x.items {
			b.WriteString(words.Trim(float64(i+1), 0) + ". " + escape(s) + "\n")
		}
		b.WriteString("\n")
	case grid:
		markdownGrid(b, x)
	case picture:
		b.WriteString("*" + escape(x.text+" "+x.fig.Alt) + "*\n\n")
	}
}

func markdownGrid(b *strings.Builder, x *block) {
	for n, row := range x.rows {
		for i, c := range row {
			if i == 0 && n < len(x.inside) && x.inside[n] {
				c = "– " + c
			}
			b.WriteString("| " + escape(c) + " ")
		}
		b.WriteString("|\n")
		if n > 0 {
			continue
		}
		for _, right := range x.right {
			if right {
				b.WriteString("| ---: ")
			} else {
				b.WriteString("| :--- ")
			}
		}
		b.WriteString("|\n")
	}
	b.WriteString("\n")
	if x.text != "" {
		b.WriteString(escape(x.text) + "\n\n")
	}
}
