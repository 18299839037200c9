package book

import (
	"bytes"
	"encoding/base64"
	"io"
	"strings"

	"parewell/charts/manuscript"
	"parewell/recipes/words"
)

// WriteHTML writes the page as one HTML file without anything from outside: its
// own style for screen and paper, the chart inside, and the schema.org Recipe.
// It is also well-formed XML.
func (p *Page) WriteHTML(w io.Writer) error {
	var ld bytes.Buffer
	if err := p.WriteJSONLD(&ld); err != nil {
		return err
	}
	var b strings.Builder
	htmlHead(&b, p.Title, p.Paper(), ld.String())
	if err := p.html(&b, 1); err != nil {
		return err
	}
	b.WriteString("</main>\n</body>\n</html>\n")
	_, err := io.WriteString(w, b.String())
	return err
}

// htmlHead opens a document up to its main part.
func htmlHead(b *strings.Builder, title string, paper manuscript.Paper, ld string) {
	size := "A4"
	if paper.Key == manuscript.Letter.Key {
		size = "letter"
	}
	b.WriteString("<!DOCTYPE html>\n<html xmlns=\"http://www.w3.org/1999/xhtml\" lang=\"" + words.Current().Code + "\">\n<head>\n<meta charset=\"utf-8\"/>\n")
	b.WriteString("<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\"/>\n<title>" + html(title) + "</title>\n")
	b.WriteString("<style>\n" + strings.ReplaceAll(styleSheet, "PAPER", size) + "</style>\n")
	if ld != "" {
		b.WriteString("<script type=\"application/ld+json\">\n" + xmlText(ld) + "</script>\n")
	}
	b.WriteString("</head>\n<body>\n<main>\n")
}

// html adds the page as an article with its title at a level of heading.
func (p *Page) html(b *strings.Builder, level int) error {
	b.WriteString("<article id=\"" + html(p.anchor()) + "\">\n")
	for _, x := range p.parts() {
		tag := "section"
		if x.head == "" {
			tag = "header"
		}
		b.WriteString("<" + tag + " class=\"" + x.key + "\">\n")
		if x.head != "" {
			b.WriteString(element(heading(level+1), "", x.head))
		}
		for i := range x.blocks {
			if err := htmlBlock(b, &x.blocks[i], level); err != nil {
				return err
			}
		}
		b.WriteString("</" + tag + ">\n")
	}
	b.WriteString("</article>\n")
	return nil
}

// anchor names the page's place in a file.
func (p *Page) anchor() string { return "recipe-" + string(p.Recipe) + string(p.Version) }

func heading(level int) string { return "h" + words.Trim(float64(min(level, 6)), 0) }

func element(tag, class, text string) string {
	if class != "" {
		class = " class=\"" + class + "\""
	}
	return "<" + tag + class + ">" + html(text) + "</" + tag + ">\n"
}

var htmlMarks = strings.NewReplacer("&", "&amp;", "<", "&lt;", ">", "&gt;", "\"", "&quot;", "'", "&#39;")

// html makes text safe between tags and inside quotes; signs that XML has no
// place for are left out.
func html(s string) string { return htmlMarks.Replace(xmlText(kept(s))) }

// xmlText leaves out what XML 1.0 does not allow in a document.
func xmlText(s string) string {
	return strings.Map(func(r rune) rune {
		if r < ' ' && r != '\n' && r != '\t' || r == 0xFFFE || r == 0xFFFF || r == 0xFFFD {
			return -1
		}
		return r
	}, s)
}

func htmlBlock(b *strings.Builder, x *block, level int) error {
	switch x.kind {
	case paragraph:
		tag := "p"
		switch x.style {
		case styleTitle, styleBook:
			tag = heading(level)
		case stylePart:
			tag = heading(level + 2)
		}
		b.WriteString(element(tag, strings.ToLower(string(x.style)), x.text))
	case bullets, numbers:
		tag := map[blockKind]string{bullets: "ul", numbers: "ol"}[x.kind]
		b.WriteString("<" + tag + " class=\"" + strings.ToLower(string(x.style)) + "\">\n")
		for _, s := range x.items {
			b.WriteString(element("li", "", s))
		}
		b.WriteString("</" + tag + ">\n")
	case grid:
		htmlGrid(b, x)
	case picture:
		return htmlPicture(b, x)
	}
	return nil
}

func htmlGrid(b *strings.Builder, x *block) {
	b.WriteString("<table>\n")
	for n, row := range x.rows {
		switch n {
		case 0:
			b.WriteString("<thead>\n")
		case 1:
			b.WriteString("<tbody>\n")
		}
		class := ""
		if n < len(x.inside) && x.inside[n] {
			class = " class=\"inside\""
		}
		b.WriteString("<tr" + class + ">")
		for i, c := range row {
			b.WriteString(strings.TrimSuffix(htmlCell(x, n, i, c), "\n"))
		}
		b.WriteString("</tr>\n")
		if n == 0 {
			b.WriteString("</thead>\n")
		}
	}
	if len(x.rows) > 1 {
		b.WriteString("</tbody>\n")
	}
	b.WriteString("</table>\n")
	if x.text != "" {
		b.WriteString(element("p", "smalltext", x.text))
	}
}

// htmlCell is one cell; the head has column heads, and the first cell of a row
// with figures is its head.
func htmlCell(x *block, n, i int, text string) string {
	class := ""
	if x.right[i] {
		class = " class=\"right\""
	}
	switch {
	case n == 0:
		return "<th scope=\"col\"" + class + ">" + html(text) + "</th>"
	case i == 0 && len(x.right) > 1 && x.right[1]:
		return "<th scope=\"row\">" + html(text) + "</th>"
	}
	return "<td" + class + ">" + html(text) + "</td>"
}

func htmlPicture(b *strings.Builder, x *block) error {
	var svg bytes.Buffer
	if err := x.fig.Figure.WriteSVG(&svg, figureWide, x.fig.HighMM); err != nil {
		return err
	}
	b.WriteString("<figure>\n<img src=\"data:image/svg+xml;base64," + base64.StdEncoding.EncodeToString(svg.Bytes()) + "\" alt=\"" + html(x.fig.Alt) + "\"/>\n")
	b.WriteString(element("figcaption", "", x.text) + "</figure>\n")
	return nil
}

// Size of the charts on a page, in millimetres: the width of the text.
const (
	figureWide = 160.0
	figureHigh = 46.0
	sharesHigh = 70.0
)

// styleSheet sets the page for screen and paper in a serif that every machine
// has; PAPER is the paper's name.
const styleSheet = `:root { color: #26221c; background: #fbf8f2; font: 17px/1.55 Georgia, "Times New Roman", serif; }
body { margin: 0; }
main { max-width: 46rem; margin: 0 auto; padding: 2rem 1.2rem 4rem; }
h1, h2, h3, h4 { line-height: 1.2; font-weight: 600; color: #1f4d3a; }
h1 { font-size: 2rem; margin: 0 0 .3rem; }
h2 { font-size: 1.15rem; margin: 2rem 0 .5rem; padding-bottom: .2rem; border-bottom: 1px solid #cfc6b6; }
h3 { font-size: 1rem; margin: 1.1rem 0 .3rem; }
p { margin: .4rem 0; }
.recipeversion { color: #6b6256; font-style: italic; }
.yield { font-weight: 600; }
nav a { color: inherit; }
ul, ol { padding-left: 1.3rem; margin: .3rem 0; }
li { margin: .25rem 0; }
ul.ingredientline { list-style: none; padding-left: 0; }
ol.methodstep li { margin: .6rem 0; padding-left: .3rem; }
table { border-collapse: collapse; margin: .4rem 0; font-variant-numeric: tabular-nums; }
th, td { text-align: left; vertical-align: top; padding: .22rem 1.4rem .22rem 0; border-bottom: 1px solid #e2dacb; font-weight: 400; }
thead th { font-weight: 600; border-bottom: 1.5px solid #26221c; }
.right { text-align: right; padding-right: 0; padding-left: 1.4rem; }
tr.inside th { padding-left: 1.1rem; }
.ingredients table { width: 100%; }
.ingredients th:nth-child(1) { width: 5rem; }
.ingredients th:nth-child(2) { width: 8rem; }
figure { margin: 1rem 0; }
img { width: 100%; height: auto; background: #fff; }
figcaption, .smalltext { font-size: .85rem; color: #6b6256; }
.open { background: #fbf0d9; padding: .2rem 1rem 1rem; margin-top: 2rem; border-left: 4px solid #c98a1b; }
article + article { border-top: 3px double #cfc6b6; margin-top: 3rem; padding-top: 2rem; }
@media screen and (max-width: 40rem) {
figure, main > section { overflow-x: auto; }
figure img { width: 36rem; }
figcaption { position: sticky; left: 0; }
}
@media print {
@page { size: PAPER; margin: 18mm 20mm; }
:root { background: #fff; color: #000; font-size: 10.5pt; line-height: 1.38; }
th, td { padding-top: .12rem; padding-bottom: .12rem; }
li { margin: .12rem 0; }
main { max-width: none; padding: 0; }
h1, h2, h3, h4 { color: #000; break-after: avoid; }
li, table, figure { break-inside: avoid; }
header + article, article + article { break-before: page; border: 0; margin: 0; padding: 0; }
article + section { break-before: page; }
.open { background: none; }
}
`
