package book

import (
	"io"
	"strings"
	"unicode"
	"unicode/utf8"

	"parewell/charts"
	"parewell/charts/manuscript"
	"parewell/recipes"
	"parewell/recipes/words"
)

// ends are the parts of the book behind its recipes.
func (m *Manuscript) ends() []part {
	return []part{
		{"table", words.Say("book.head.table"), m.tableBlocks()},
		{"index", words.Say("book.head.index"), m.indexBlocks(nil)},
		{"report", words.Say("book.head.report"), m.reportBlocks()},
	}
}

// indexBlocks are the ingredients by their first letter; number gives a page's
// number, nil where there are none and recipes are named instead.
func (m *Manuscript) indexBlocks(number func(int) string) []block {
	var out []block
	letter := rune(0)
	for _, e := range m.Index {
		r, _ := utf8.DecodeRuneInString(e.Name)
		if r = unicode.ToUpper(r); r != letter {
			letter = r
			out = append(out, para(stylePart, string(r)), block{kind: bullets, style: styleLine})
		}
		last := &out[len(out)-1]
		last.items = append(last.items, m.indexLine(e, number))
	}
	return out
}

// indexLine is an ingredient with its pages, or its recipes where there are none.
func (m *Manuscript) indexLine(e IndexEntry, number func(int) string) string {
	var at []string
	if number == nil {
		for _, n := range e.Pages {
			at = append(at, m.Pages[n].pageName())
		}
		return words.Say("book.index.titles", e.Name, charts.Semicolons(at))
	}
	for _, n := range e.Pages {
		at = append(at, number(n))
	}
	return words.Say("book.index.entry", e.Name, strings.Join(at, ", "))
}

// WriteDOCX writes the whole book as one document: a title page with links to
// the recipes, each recipe on a page of its own, table, index and report.
func (m *Manuscript) WriteDOCX(w io.Writer) error {
	d := newDocx(m.Title, m.options.Paper, m.Made)
	d.para(styleBook, m.Title, "", 0)
	d.para(styleBody, words.Say("book.made", words.Day(m.Made)), "", 0)
	d.para(styleHeading, words.Say("book.head.contents"), "", 0)
	for _, p := range m.Pages {
		d.link(p.anchor(), p.pageName())
	}
	for _, p := range m.Pages {
		d.block(&block{kind: newPage})
		d.page(p)
	}
	for _, x := range m.ends() {
		d.block(&block{kind: newPage})
		d.para(styleTitle, x.head, "", 0)
		for i := range x.blocks {
			d.block(&x.blocks[i])
		}
	}
	return d.write(w)
}

// link adds a line that leads to a place in the document.
func (d *docx) link(name, text string) {
	d.put(paraX{Style: pStyle(styleBody), Links: []linkX{{Anchor: bookmark(name), Runs: []runX{run(text)}}}})
}

// WriteHTML writes the whole book as one HTML file.
func (m *Manuscript) WriteHTML(w io.Writer) error {
	var b strings.Builder
	htmlHead(&b, m.Title, m.options.Paper, "")
	b.WriteString("<header>\n" + element("h1", "", m.Title) + element("p", "", words.Say("book.made", words.Day(m.Made))))
	b.WriteString("<nav>\n" + element("h2", "", words.Say("book.head.contents")) + "<ol>\n")
	for _, p := range m.Pages {
		b.WriteString("<li><a href=\"#" + html(p.anchor()) + "\">" + html(p.pageName()) + "</a></li>\n")
	}
	b.WriteString("</ol>\n</nav>\n</header>\n")
	for _, p := range m.Pages {
		if err := p.html(&b, 2); err != nil {
			return err
		}
	}
	for _, x := range m.ends() {
		b.WriteString("<section class=\"" + x.key + "\">\n" + element("h2", "", x.head))
		for i := range x.blocks {
			if err := htmlBlock(&b, &x.blocks[i], 1); err != nil {
				return err
			}
		}
		b.WriteString("</section>\n")
	}
	b.WriteString("</main>\n</body>\n</html>\n")
	_, err := io.WriteString(w, b.String())
	return err
}

// WriteMarkdown writes the whole book as one Markdown file.
func (m *Manuscript) WriteMarkdown(w io.Writer) error {
	var b strings.Builder
	b.WriteString(hashes(1) + escape(m.Title) + "\n\n" + escape(words.Say("book.made", words.Day(m.Made))) + "\n\n")
	for _, p := range m.Pages {
		p.markdown(&b, 2)
	}
	for _, x := range m.ends() {
		b.WriteString(hashes(2) + escape(x.head) + "\n\n")
		for i := range x.blocks {
			markdownBlock(&b, &x.blocks[i], 1)
		}
	}
	_, err := io.WriteString(w, b.String())
	return err
}

// WritePDF writes the whole book as one PDF with page numbers in its contents and
// index.
func (m *Manuscript) WritePDF(w io.Writer) error {
	s := newSetter(m.options.Paper)
	starts := make([]int, len(m.Pages))
	front := m.front(nil) // as many pages, whatever the numbers
	first := len(s.measure(front))
	s.sheet(first - 1)
	for i, p := range m.Pages {
		starts[i] = len(s.pages)
		if err := s.recipe(p); err != nil {
			return err
		}
	}
	number := func(n int) string { return words.Trim(float64(starts[n]+1), 0) }
	s.flow(s.blocks(m.front(number), s.wide()), pdfSide, spot{0, pdfTop + 60})
	for _, x := range m.ends() {
		at := s.flow(s.lines(x.head, 19, true, false, s.wide(), 0, 8), pdfSide, spot{len(s.pages), pdfTop})
		if x.key == "index" {
			s.twoColumns(s.blocks(m.indexBlocks(number), (s.wide()-pdfGap)/2), at)
			continue
		}
		s.flow(s.blocks(x.blocks, s.wide()), pdfSide, at)
	}
	s.foot(m.Title, 0)
	d := manuscript.Document{Title: m.Title, Pages: s.pages}
	return d.WritePDF(w)
}

// front is the title page: title, day and contents.
func (m *Manuscript) front(number func(int) string) []block {
	t := block{kind: grid, right: []bool{false, true}, rows: [][]string{{words.Say("book.head.contents"), words.Say("book.col.page")}}}
	for i, p := range m.Pages {
		at := ""
		if number != nil {
			at = number(i)
		}
		t.rows = append(t.rows, []string{p.pageName(), at})
	}
	return []block{para(styleBook, m.Title), para(styleBody, words.Say("book.made", words.Day(m.Made))), t}
}

// measure sets blocks on pages of their own, to know how many they take.
func (s *pdfSetter) measure(blocks []block) []manuscript.Page {
	try := newSetter(s.paper)
	try.flow(try.blocks(blocks, try.wide()), pdfSide, spot{0, pdfTop + 60})
	return try.pages
}

// blocks set blocks one under another.
func (s *pdfSetter) blocks(all []block, wide float64) []strip {
	var out []strip
	for i := range all {
		if all[i].style == styleBook {
			out = append(out, s.lines(all[i].text, 28, true, false, wide, 0, 10)...)
			continue
		}
		out = append(out, s.block(&all[i], wide)...)
	}
	return out
}

// Files are the files of the page in every form, under a name.
func (p *Page) Files(name string, m *Manuscript) []File {
	return []File{
		{name + ".docx", func(w io.Writer) error { return p.WriteDOCX(w, m.Made) }},
		{name + ".pdf", p.WritePDF},
		{name + ".html", p.WriteHTML},
		{name + ".md", p.WriteMarkdown},
		{name + ".txt", p.WriteText},
		{name + ".jsonld", p.WriteJSONLD},
	}
}

// RecipeFiles are the files of every recipe, its page in every form and a folder
// of its figures.
func (m *Manuscript) RecipeFiles(b *recipes.Book, wide float64, o FigureOptions) ([]File, error) {
	var out []File
	var names []string
	for _, p := range m.Pages {
		names = append(names, p.FileName())
	}
	for i, name := range uniqueNames(names) {
		p := m.Pages[i]
		out = append(out, p.Files(name, m)...)
		files, err := p.RecipeFigures(b, wide, o)
		if err != nil {
			return nil, err
		}
		for _, f := range files {
			out = append(out, File{words.Say("book.file.figures", name) + "/" + f.Name, f.Write})
		}
	}
	return out, nil
}

// FileName is what the files of the page are called, without their endings.
func (p *Page) FileName() string {
	if p.Letter == "" {
		return p.Title
	}
	return words.Say("book.file.page", p.Title, p.Letter)
}

// BookFiles are the files of the whole book: one document in every form, the
// table of nutrition and the report.
func (m *Manuscript) BookFiles() []File {
	name := safeName(m.Title)
	return []File{
		{name + ".docx", m.WriteDOCX},
		{name + ".pdf", m.WritePDF},
		{name + ".html", m.WriteHTML},
		{name + ".md", m.WriteMarkdown},
		{"nutrition.csv", m.WriteTableCSV},
		{"report.csv", m.WriteReportCSV},
		{"report.json", m.WriteReportJSON},
	}
}

// WriteTableCSV writes the nutrition before and after: a row a recipe and
// nutrient, per serving, unrounded figures of the amounts as printed.
func (m *Manuscript) WriteTableCSV(w io.Writer) error {
	rows := [][]string{{"recipe", "version", "nutrient", "unit", "before", "after", "change", "percent", "bound", "printed"}}
	for _, p := range m.Pages {
		rows = append(rows, p.tableRows()...)
	}
	return writeCSV(w, rows)
}
