package book

import (
	"strconv"
	"strings"

	"parewell/recipes/words"
)

// dress is how a style is set: sizes in half points, spaces in twentieths of a
// point.
type dress struct {
	id            style
	name          string
	outline       int // level of heading from 1; 0 none
	size          int
	before, after int
	bold, italic  bool
	grey, keep    bool
}

// looks are the document's own styles; an editor restyles a book by changing
// them once.
var looks = []dress{
	{id: styleBook, name: "Book Title", outline: 1, size: 56, before: 2400, after: 240, bold: true, keep: true},
	{id: styleTitle, name: "Recipe Title", outline: 1, size: 40, before: 0, after: 60, bold: true, keep: true},
	{id: styleVersion, name: "Recipe Version", size: 20, after: 120, italic: true, grey: true, keep: true},
	{id: styleHeadnote, name: "Headnote", size: 22, after: 160, italic: true},
	{id: styleYield, name: "Yield", size: 21, after: 60, bold: true},
	{id: styleHeading, name: "Recipe Heading", outline: 2, size: 26, before: 280, after: 80, bold: true, keep: true},
	{id: stylePart, name: "Part Heading", outline: 3, size: 22, before: 160, after: 40, bold: true, keep: true},
	{id: styleLine, name: "Ingredient Line", size: 21, after: 20},
	{id: styleStep, name: "Method Step", size: 21, after: 100},
	{id: styleBody, name: "Body Text", size: 21, after: 100},
	{id: styleNote, name: "Note Text", size: 20, after: 40},
	{id: styleSmall, name: "Small Text", size: 17, after: 60, grey: true},
	{id: styleCaption, name: "Figure Caption", size: 17, before: 60, after: 120, grey: true},
	{id: styleCell, name: "Table Cell", size: 20, before: 20, after: 20},
	{id: styleHead, name: "Table Head", size: 20, before: 20, after: 20, bold: true, keep: true},
}

// language is the document's language as word processors name it.
func language() string {
	if code := words.Current().Code; code != "en" {
		return code
	}
	return "en-GB"
}

// docxStyles is word/styles.xml.
func docxStyles() string {
	var b strings.Builder
	b.WriteString(`<w:styles ` + wordNS + `><w:docDefaults><w:rPrDefault><w:rPr><w:rFonts w:ascii="Georgia" w:hAnsi="Georgia" w:cs="Georgia" w:eastAsia="Georgia"/>` +
		`<w:sz w:val="21"/><w:szCs w:val="21"/><w:lang w:val="` + language() + `" w:eastAsia="en-GB" w:bidi="ar-SA"/></w:rPr></w:rPrDefault>` +
		`<w:pPrDefault><w:pPr><w:spacing w:after="0" w:line="276" w:lineRule="auto"/></w:pPr></w:pPrDefault></w:docDefaults>`)
	b.WriteString(`<w:style w:type="paragraph" w:default="1" w:styleId="Normal"><w:name w:val="Normal"/><w:qFormat/></w:style>`)
	b.WriteString(`<w:style w:type="character" w:default="1" w:styleId="DefaultParagraphFont"><w:name w:val="Default Paragraph Font"/><w:uiPriority w:val="1"/><w:semiHidden/></w:style>`)
	b.WriteString(tableStyles)
	for _, l := range looks {
		b.WriteString(l.xml())
	}
	return b.String() + `</w:styles>`
}

// xml is one paragraph style.
func (l dress) xml() string {
	n := strconv.Itoa
	var b strings.Builder
	b.WriteString(`<w:style w:type="paragraph" w:customStyle="1" w:styleId="` + string(l.id) + `"><w:name w:val="` + l.name + `"/><w:basedOn w:val="Normal"/><w:qFormat/><w:pPr>`)
	if l.keep {
		b.WriteString(`<w:keepNext/>`)
	}
	b.WriteString(`<w:spacing w:before="` + n(l.before) + `" w:after="` + n(l.after) + `"/>`)
	if l.outline > 0 {
		b.WriteString(`<w:outlineLvl w:val="` + n(l.outline-1) + `"/>`)
	}
	b.WriteString(`</w:pPr><w:rPr>`)
	if l.bold {
		b.WriteString(`<w:b/><w:bCs/>`)
	}
	if l.italic {
		b.WriteString(`<w:i/><w:iCs/>`)
	}
	if l.grey {
		b.WriteString(`<w:color w:val="595959"/>`)
	}
	return b.String() + `<w:sz w:val="` + n(l.size) + `"/><w:szCs w:val="` + n(l.size) + `"/></w:rPr></w:style>`
}

// tableStyles are the plain table and the one with a ruled head row.
const tableStyles = `<w:style w:type="table" w:default="1" w:styleId="TableNormal"><w:name w:val="Normal Table"/><w:uiPriority w:val="99"/><w:semiHidden/>` +
	`<w:tblPr><w:tblInd w:w="0" w:type="dxa"/><w:tblCellMar><w:top w:w="0" w:type="dxa"/><w:left w:w="0" w:type="dxa"/><w:bottom w:w="0" w:type="dxa"/><w:right w:w="120" w:type="dxa"/></w:tblCellMar></w:tblPr></w:style>` +
	`<w:style w:type="table" w:customStyle="1" w:styleId="RecipeTable"><w:name w:val="Recipe Table"/><w:basedOn w:val="TableNormal"/>` +
	`<w:tblPr><w:tblBorders><w:top w:val="single" w:sz="8" w:space="0" w:color="000000"/><w:bottom w:val="single" w:sz="8" w:space="0" w:color="000000"/><w:insideH w:val="single" w:sz="4" w:space="0" w:color="BFBFBF"/></w:tblBorders></w:tblPr>` +
	`<w:tblStylePr w:type="firstRow"><w:tcPr><w:tcBorders><w:bottom w:val="single" w:sz="8" w:space="0" w:color="000000"/></w:tcBorders></w:tcPr></w:tblStylePr></w:style>`
