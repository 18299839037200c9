package book

import (
	"io"
	"strings"

	"parewell/recipes/words"
)

// WriteText writes the page as plain text, which the reader of recipes takes
// back: title, headnote, servings, headed ingredients, numbered method first.
func (p *Page) WriteText(w io.Writer) error {
	var b strings.Builder
	for _, x := range p.parts() {
		if x.head != "" {
			b.WriteString("\n" + x.head + "\n")
			if x.key != "ingredients" {
				b.WriteString("\n")
			}
			if x.key == "nutrition" && p.Weight != "" {
				b.WriteString(words.Say("book.sentence", p.Weight) + "\n")
			}
		}
		for i, bl := range x.blocks {
			if x.key == "title" && i > 0 {
				b.WriteString("\n")
			}
			if bl.style == styleYield { // the weight would keep the reader from the servings
				bl.text = words.Say("book.sentence", p.Yield)
			}
			textBlock(&b, &bl)
		}
	}
	_, err := io.WriteString(w, b.String())
	return err
}

func textBlock(b *strings.Builder, x *block) {
	switch x.kind {
	case paragraph:
		if x.style == stylePart {
			b.WriteString("\n")
		}
		b.WriteString(x.text + "\n")
	case bullets:
		for _, s := range x.items {
			if x.style != styleLine {
				s = "- " + s
			}
			b.WriteString(s + "\n")
		}
	case numbers:
		for i, s := range x.items {
			b.WriteString(words.Trim(float64(i+1), 0) + ". " + s + "\n")
		}
	case grid:
		textGrid(b, x)
	case picture:
		b.WriteString(x.text + " " + x.fig.Alt + "\n")
	}
}

// textGrid aligns columns with spaces, two between them.
func textGrid(b *strings.Builder, x *block) {
	wide := make([]int, len(x.rows[0]))
	for _, row := range x.measured() {
		for i, c := range row {
			wide[i] = max(wide[i], len([]rune(c)))
		}
	}
	for n, row := range x.rows {
		var line strings.Builder
		for i, c := range row {
			if i == 0 && n < len(x.inside) && x.inside[n] {
				c = "  " + c
			}
			pad := strings.Repeat(" ", max(0, wide[i]+2-len([]rune(c))))
			if x.right[i] {
				line.WriteString(pad + c)
			} else {
				line.WriteString(c + pad)
			}
		}
		b.WriteString(strings.TrimRight(line.String(), " ") + "\n")
	}
	if x.text != "" {
		b.WriteString(x.text + "\n")
	}
}
