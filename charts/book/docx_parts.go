package book

import (
	"fmt"
	"strconv"
	"strings"
	"time"
)

// docxPart is one file of the package.
type docxPart struct {
	name string
	data []byte
}

func imageName(n int) string { return "image" + strconv.Itoa(n) + ".png" }

func imageID(n int) string { return "rIdImage" + strconv.Itoa(n) }

const (
	xmlHead  = `<?xml version="1.0" encoding="UTF-8" standalone="yes"?>` + "\n"
	wordNS   = `xmlns:w="http://schemas.openxmlformats.org/wordprocessingml/2006/main"`
	relNS    = `xmlns:r="http://schemas.openxmlformats.org/officeDocument/2006/relationships"`
	inlineNS = `xmlns:wp="http://schemas.openxmlformats.org/drawingml/2006/wordprocessingDrawing"`
	relType  = "http://schemas.openxmlformats.org/officeDocument/2006/relationships/"
	wordType = "application/vnd.openxmlformats-officedocument.wordprocessingml."
)

// parts are all files of the package (ECMA-376 part 2).
func (d *docx) parts() []docxPart {
	text := func(name, s string) docxPart { return docxPart{name, []byte(xmlHead + s)} }
	out := []docxPart{
		text("[Content_Types].xml", contentTypes),
		text("_rels/.rels", packageRels),
		text("docProps/core.xml", d.core()),
		text("docProps/app.xml", `<Properties xmlns="http://schemas.openxmlformats.org/officeDocument/2006/extended-properties"><Application>Parewell</Application></Properties>`),
		text("word/document.xml", d.document()),
		text("word/_rels/document.xml.rels", d.documentRels()),
		text("word/styles.xml", docxStyles()),
		text("word/numbering.xml", d.numbering()),
		text("word/settings.xml", `<w:settings `+wordNS+`><w:zoom w:percent="100"/><w:defaultTabStop w:val="720"/><w:characterSpacingControl w:val="doNotCompress"/><w:compat><w:compatSetting w:name="compatibilityMode" w:uri="http://schemas.microsoft.com/office/word" w:val="15"/></w:compat></w:settings>`),
		text("word/footer1.xml", d.footer()),
	}
	for i, png := range d.media {
		out = append(out, docxPart{"word/media/" + imageName(i+1), png})
	}
	return out
}

const contentTypes = `<Types xmlns="http://schemas.openxmlformats.org/package/2006/content-types">` +
	`<Default Extension="rels" ContentType="application/vnd.openxmlformats-package.relationships+xml"/>` +
	`<Default Extension="xml" ContentType="application/xml"/><Default Extension="png" ContentType="image/png"/>` +
	`<Override PartName="/word/document.xml" ContentType="` + wordType + `document.main+xml"/>` +
	`<Override PartName="/word/styles.xml" ContentType="` + wordType + `styles+xml"/>` +
	`<Override PartName="/word/numbering.xml" ContentType="` + wordType + `numbering+xml"/>` +
	`<Override PartName="/word/settings.xml" ContentType="` + wordType + `settings+xml"/>` +
	`<Override PartName="/word/footer1.xml" ContentType="` + wordType + `footer+xml"/>` +
	`<Override PartName="/docProps/core.xml" ContentType="application/vnd.openxmlformats-package.core-properties+xml"/>` +
	`<Override PartName="/docProps/app.xml" ContentType="application/vnd.openxmlformats-officedocument.extended-properties+xml"/></Types>`

const packageRels = `<Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships">` +
	`<Relationship Id="rId1" Type="` + relType + `officeDocument" Target="word/document.xml"/>` +
	`<Relationship Id="rId2" Type="http://schemas.openxmlformats.org/package/2006/relationships/metadata/core-properties" Target="docProps/core.xml"/>` +
	`<Relationship Id="rId3" Type="` + relType + `extended-properties" Target="docProps/app.xml"/></Relationships>`

// core are the properties a file manager shows.
func (d *docx) core() string {
	day := d.made.UTC().Format(time.RFC3339)
	return `<cp:coreProperties xmlns:cp="http://schemas.openxmlformats.org/package/2006/metadata/core-properties" xmlns:dc="http://purl.org/dc/elements/1.1/" xmlns:dcterms="http://purl.org/dc/terms/" xmlns:xsi="http://www.w3.org/2001/XMLSchema-instance">` +
		`<dc:title>` + html(d.title) + `</dc:title><dc:language>` + language() + `</dc:language>` +
		`<dcterms:created xsi:type="dcterms:W3CDTF">` + day + `</dcterms:created><dcterms:modified xsi:type="dcterms:W3CDTF">` + day + `</dcterms:modified></cp:coreProperties>`
}

func (d *docx) document() string {
	wide, high := int(d.paper.Width*20+0.5), int(d.paper.Height*20+0.5)
	return `<w:document ` + wordNS + " " + relNS + " " + inlineNS + `><w:body>` + d.body.String() +
		fmt.Sprintf(`<w:sectPr><w:footerReference w:type="default" r:id="rIdFooter"/><w:pgSz w:w="%d" w:h="%d"/><w:pgMar w:top="%d" w:right="%d" w:bottom="%d" w:left="%d" w:header="567" w:footer="567" w:gutter="0"/></w:sectPr>`,
			wide, high, docxTop, docxSide, docxTop, docxSide) + `</w:body></w:document>`
}

func (d *docx) documentRels() string {
	var b strings.Builder
	b.WriteString(`<Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships">`)
	rel := func(id, kind, target string) {
		b.WriteString(`<Relationship Id="` + id + `" Type="` + relType + kind + `" Target="` + target + `"/>`)
	}
	rel("rIdStyles", "styles", "styles.xml")
	rel("rIdNumbering", "numbering", "numbering.xml")
	rel("rIdSettings", "settings", "settings.xml")
	rel("rIdFooter", "footer", "footer1.xml")
	for i := range d.media {
		rel(imageID(i+1), "image", "media/"+imageName(i+1))
	}
	return b.String() + `</Relationships>`
}

// footer numbers the pages.
func (d *docx) footer() string {
	return `<w:ftr ` + wordNS + `><w:p><w:pPr><w:pStyle w:val="` + string(styleSmall) + `"/><w:jc w:val="center"/></w:pPr>` +
		`<w:r><w:t xml:space="preserve">` + html(d.title) + ` · </w:t></w:r><w:fldSimple w:instr=" PAGE "><w:r><w:t>1</w:t></w:r></w:fldSimple></w:p></w:ftr>`
}

// numbering has bullets as list 1 and a list of its own, from 1, for each
// method.
func (d *docx) numbering() string {
	var b strings.Builder
	level := func(format, text string) string {
		return `<w:multiLevelType w:val="singleLevel"/><w:lvl w:ilvl="0"><w:start w:val="1"/><w:numFmt w:val="` + format + `"/><w:lvlText w:val="` + text +
			`"/><w:lvlJc w:val="left"/><w:pPr><w:tabs><w:tab w:val="num" w:pos="397"/></w:tabs><w:ind w:left="397" w:hanging="397"/></w:pPr></w:lvl>`
	}
	b.WriteString(`<w:numbering ` + wordNS + `><w:abstractNum w:abstractNumId="0">` + level("bullet", "•") + `</w:abstractNum>`)
	b.WriteString(`<w:abstractNum w:abstractNumId="1">` + level("decimal", "%1.") + `</w:abstractNum><w:num w:numId="1"><w:abstractNumId w:val="0"/></w:num>`)
	for n := range d.lists {
		fmt.Fprintf(&b, `<w:num w:numId="%d"><w:abstractNumId w:val="1"/><w:lvlOverride w:ilvl="0"><w:startOverride w:val="1"/></w:lvlOverride></w:num>`, n+2)
	}
	return b.String() + `</w:numbering>`
}
