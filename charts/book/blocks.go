package book

import (
	"unicode"
	"unicode/utf8"

	"parewell/analysis/claims"
	"parewell/recipes/words"
)

// blockKind is what a piece of a page is.
type blockKind int

const (
	paragraph blockKind = iota
	bullets
	numbers
	grid    // a table; its first row is the head
	picture // with a caption
	newPage
)

// style names how text is set; it is the id of the style in DOCX and the class
// in HTML.
type style string

const (
	styleTitle    style = "RecipeTitle"
	styleVersion  style = "RecipeVersion"
	styleHeadnote style = "Headnote"
	styleYield    style = "Yield"
	styleHeading  style = "RecipeHeading"
	stylePart     style = "PartHeading"
	styleLine     style = "IngredientLine"
	styleStep     style = "MethodStep"
	styleBody     style = "BodyText"
	styleNote     style = "NoteText"
	styleSmall    style = "SmallText"
	styleCaption  style = "FigureCaption"
	styleCell     style = "TableCell"
	styleHead     style = "TableHead"
	styleBook     style = "BookTitle"
)

// block is one piece of a page, the same for every writer.
type block struct {
	kind   blockKind
	style  style
	text   string     // of a paragraph; the caption of a picture or table
	items  []string   // of a list
	rows   [][]string // of a table
	right  []bool     // columns set to the right
	inside []bool     // rows that are a part of the row above
	like   [][]string // rows whose columns this table's are as wide as
	fig    *Picture
}

func para(s style, text string) block { return block{kind: paragraph, style: s, text: text} }

// part is a headed part of a page; the title's has no heading.
type part struct {
	key    string // stable: "ingredients"
	head   string
	blocks []block
}

// parts are the page in the order it is read.
func (p *Page) parts() []part {
	out := []part{
		{"title", "", p.titleBlocks()},
		{"ingredients", words.Say("book.head.ingredients"), p.ingredientBlocks()},
		{"method", words.Say("book.head.method"), p.stepBlocks()},
		{"notes", words.Say("book.head.notes"), p.noteBlocks()},
		{"nutrition", words.Say("book.head.nutrition"), p.nutritionBlocks()},
		{"change", words.Say("book.head.change"), p.changeBlocks()},
		{"allergens", words.Say("book.head.allergens"), []block{{kind: bullets, style: styleNote, items: p.Allergens.Lines()}}},
		{"cautions", words.Say("book.head.cautions"), p.cautionBlocks()},
		{"tested", words.Say("book.head.tested"), []block{{kind: bullets, style: styleNote, items: p.Tested.Lines()}}},
		{"open", words.Say("book.head.open"), p.openBlocks()},
	}
	kept := out[:0]
	for _, x := range out {
		if len(x.blocks) > 0 {
			kept = append(kept, x)
		}
	}
	return kept
}

func (p *Page) titleBlocks() []block {
	out := []block{para(styleTitle, p.Title)}
	if v := p.versionLine(); v != "" {
		out = append(out, para(styleVersion, v))
	}
	if p.Headnote != "" {
		out = append(out, para(styleHeadnote, p.Headnote))
	}
	return append(out, para(styleYield, p.yieldLine()))
}

// versionLine tells the version from another one of the recipe in the same book.
// Else it is "": whoever cooks from a page has one dish before her, and letters are
// the kitchen's.
func (p *Page) versionLine() string {
	switch {
	case p.Letter == "" || !p.beside:
		return ""
	case p.Name == "":
		return words.Say("book.version", p.Letter)
	}
	return words.Say("book.version-named", p.Letter, p.Name)
}

func (p *Page) yieldLine() string {
	if p.Weight == "" {
		return words.Say("book.sentence", p.Yield)
	}
	return words.Say("book.yield", p.Yield, p.Weight)
}

func (p *Page) ingredientBlocks() []block {
	if len(p.Nutrition) > 1 {
		return p.ingredientTable()
	}
	var out []block
	for _, s := range p.Sections {
		if s.Name != "" {
			out = append(out, para(stylePart, s.Name))
		}
		list := block{kind: bullets, style: styleLine}
		for i := range s.Lines {
			list.items = append(list.items, s.Lines[i].In(0))
		}
		out = append(out, list)
	}
	return out
}

// ingredientTable has the amounts of each system side by side.
func (p *Page) ingredientTable() []block {
	var out []block
	var all [][]string
	for _, s := range p.Sections {
		if s.Name != "" {
			out = append(out, para(stylePart, s.Name))
		}
		t := block{kind: grid, rows: [][]string{{words.Say("book.col.metric"), words.Say("book.col.us"), words.Say("book.col.ingredient")}}}
		t.right = []bool{false, false, false}
		for _, l := range s.Lines {
			t.rows = append(t.rows, []string{l.Amounts[0].Text, l.Amounts[1].Text, l.Rest})
		}
		out, all = append(out, t), append(all, t.rows...)
	}
	for i := range out {
		out[i].like = all
	}
	return out
}

func (p *Page) stepBlocks() []block {
	if len(p.Steps) == 0 {
		return nil
	}
	list := block{kind: numbers, style: styleStep}
	for _, s := range p.Steps {
		list.items = append(list.items, s.Text)
	}
	return []block{list}
}

func (p *Page) noteBlocks() []block {
	if len(p.Notes) == 0 {
		return nil
	}
	list := block{kind: bullets, style: styleNote}
	for _, n := range p.Notes {
		list.items = append(list.items, words.Say("book.note", capital(n.Name), n.Text))
	}
	return []block{list}
}

func (p *Page) nutritionBlocks() []block {
	t := block{kind: grid, text: words.Say("book.per-serving." + p.rule() + "." + string(p.Energy)), right: []bool{false}}
	head := []string{words.Say("book.col.nutrient")}
	for _, n := range p.shownNutrition() {
		name := words.Say("book.col.serving")
		if len(p.shownNutrition()) > 1 {
			name = words.Say("book.col.serving." + n.System)
		}
		head, t.right = append(head, name), append(t.right, true)
	}
	t.rows, t.inside = [][]string{head}, []bool{false}
	for i, r := range p.Nutrition[0].Rows {
		row := []string{r.Name}
		for _, n := range p.shownNutrition() {
			row = append(row, n.Rows[i].Text)
		}
		t.rows, t.inside = append(t.rows, row), append(t.inside, r.Inside)
	}
	return []block{t, para(styleSmall, words.Say("book.as-printed."+string(p.Units)))}
}

// shownNutrition is one column where both systems print the same figures.
func (p *Page) shownNutrition() []Nutrition {
	if len(p.Nutrition) < 2 {
		return p.Nutrition
	}
	for i, r := range p.Nutrition[0].Rows {
		if p.Nutrition[1].Rows[i].Text != r.Text {
			return p.Nutrition
		}
	}
	return p.Nutrition[:1]
}

func (p *Page) rule() string {
	if p.Rule == claims.US {
		return "us"
	}
	return "eu"
}

func (p *Page) changeBlocks() []block {
	if p.Change == nil {
		return nil
	}
	out := []block{para(styleBody, p.Change.Text)}
	if p.Picture != nil {
		out = append(out, block{kind: picture, style: styleCaption, text: p.Picture.Caption, fig: p.Picture})
	}
	return out
}

func (p *Page) cautionBlocks() []block {
	if len(p.Cautions) == 0 {
		return nil
	}
	list := block{kind: bullets, style: styleNote}
	for _, c := range p.Cautions {
		list.items = append(list.items, words.Say("cautions.line", c.Text, c.From))
	}
	return []block{list}
}

func (p *Page) openBlocks() []block {
	if p.options.NoOpen || len(p.Editor)+len(p.Open) == 0 {
		return nil
	}
	list := block{kind: bullets, style: styleSmall}
	for _, o := range append(append([]Open{}, p.Editor...), p.Open...) {
		list.items = append(list.items, o.Text)
	}
	return []block{list}
}

// capital begins a sentence.
func capital(s string) string {
	r, n := utf8.DecodeRuneInString(s)
	return string(unicode.ToUpper(r)) + s[n:]
}

// measured are the rows that a table's columns are measured by.
func (b *block) measured() [][]string {
	if b.like != nil {
		return b.like
	}
	return b.rows
}
