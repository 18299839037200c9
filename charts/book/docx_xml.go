package book

import "encoding/xml"

// The elements of WordprocessingML that a document is made of (ECMA-376 part 1,
// clause 17), in the order the schema asks for.

type valX struct {
	Val string `xml:"w:val,attr"`
}

type intX struct {
	Val int `xml:"w:val,attr"`
}

func valInt(n int) intX { return intX{n} }

type paraX struct {
	XMLName xml.Name    `xml:"w:p"`
	Style   *paraPropsX `xml:"w:pPr,omitempty"`
	Start   *markX      `xml:"w:bookmarkStart,omitempty"`
	Runs    []runX      `xml:"w:r"`
	Links   []linkX     `xml:"w:hyperlink"`
	End     *markX      `xml:"w:bookmarkEnd,omitempty"`
}

type paraPropsX struct {
	Style    valX      `xml:"w:pStyle"`
	KeepNext *struct{} `xml:"w:keepNext,omitempty"`
	NewPage  *struct{} `xml:"w:pageBreakBefore,omitempty"`
	Num      *numX     `xml:"w:numPr,omitempty"`
	Indent   *indentX  `xml:"w:ind,omitempty"`
	Align    *valX     `xml:"w:jc,omitempty"`
}

func pStyle(s style) *paraPropsX { return &paraPropsX{Style: valX{string(s)}} }

type numX struct {
	Level intX `xml:"w:ilvl"`
	Num   intX `xml:"w:numId"`
}

type indentX struct {
	Left int `xml:"w:left,attr"`
}

type markX struct {
	ID   int    `xml:"w:id,attr"`
	Name string `xml:"w:name,attr,omitempty"`
}

type linkX struct {
	Anchor string `xml:"w:anchor,attr"`
	Runs   []runX `xml:"w:r"`
}

type runX struct {
	Text    *textX    `xml:"w:t,omitempty"`
	Drawing *drawingX `xml:"w:drawing,omitempty"`
}

type textX struct {
	Space string `xml:"xml:space,attr"`
	Text  string `xml:",chardata"`
}

// run is a run of plain text.
func run(text string) runX {
	return runX{Text: &textX{"preserve", xmlText(kept(oneLine(text)))}}
}

type tableX struct {
	XMLName xml.Name    `xml:"w:tbl"`
	Style   tablePropsX `xml:"w:tblPr"`
	Grid    gridX       `xml:"w:tblGrid"`
	Rows    []rowX      `xml:"w:tr"`
}

type tablePropsX struct {
	Style  valX   `xml:"w:tblStyle"`
	Width  widthX `xml:"w:tblW"`
	Layout struct {
		Type string `xml:"w:type,attr"`
	} `xml:"w:tblLayout"`
	Look tableLookX `xml:"w:tblLook"`
}

type tableLookX struct {
	Val       string `xml:"w:val,attr"`
	FirstRow  int    `xml:"w:firstRow,attr"`
	NoVBand   int    `xml:"w:noVBand,attr"`
	FirstCol  int    `xml:"w:firstColumn,attr"`
	LastRow   int    `xml:"w:lastRow,attr"`
	LastCol   int    `xml:"w:lastColumn,attr"`
	NoHBanded int    `xml:"w:noHBand,attr"`
}

func tableStyle() tablePropsX {
	p := tablePropsX{Style: valX{"RecipeTable"}, Width: widthX{0, "auto"}}
	p.Layout.Type = "fixed"
	p.Look = tableLookX{Val: "0420", FirstRow: 1, NoVBand: 1, NoHBanded: 0}
	return p
}

type widthX struct {
	W    int    `xml:"w:w,attr"`
	Type string `xml:"w:type,attr"`
}

type gridX struct {
	Columns []columnX `xml:"w:gridCol"`
}

type columnX struct {
	W int `xml:"w:w,attr"`
}

type rowX struct {
	Props rowPropsX `xml:"w:trPr"`
	Cells []cellX   `xml:"w:tc"`
}

type rowPropsX struct {
	NoSplit *struct{} `xml:"w:cantSplit,omitempty"`
	Head    *struct{} `xml:"w:tblHeader,omitempty"`
}

type cellX struct {
	Props cellPropsX `xml:"w:tcPr"`
	Paras []paraX    `xml:"w:p"`
}

type cellPropsX struct {
	Width widthX `xml:"w:tcW"`
}

// drawingX is a picture set as a letter of its line (clause 20.4.2.8).
type drawingX struct {
	Inline struct {
		DistT  int     `xml:"distT,attr"`
		DistB  int     `xml:"distB,attr"`
		DistL  int     `xml:"distL,attr"`
		DistR  int     `xml:"distR,attr"`
		Extent extentX `xml:"wp:extent"`
		Props  docPrX  `xml:"wp:docPr"`
		Frame  frameX  `xml:"wp:cNvGraphicFramePr"`
		Pic    graphX  `xml:"a:graphic"`
	} `xml:"wp:inline"`
}

type extentX struct {
	CX int `xml:"cx,attr"`
	CY int `xml:"cy,attr"`
}

type docPrX struct {
	ID    int    `xml:"id,attr"`
	Name  string `xml:"name,attr"`
	Descr string `xml:"descr,attr"`
}

type frameX struct {
	Locks struct {
		NS     string `xml:"xmlns:a,attr"`
		Aspect int    `xml:"noChangeAspect,attr"`
	} `xml:"a:graphicFrameLocks"`
}

type graphX struct {
	NS   string `xml:"xmlns:a,attr"`
	Data struct {
		URI string `xml:"uri,attr"`
		Pic picX   `xml:"pic:pic"`
	} `xml:"a:graphicData"`
}

type picX struct {
	NS  string `xml:"xmlns:pic,attr"`
	Non struct {
		Props docPrX   `xml:"pic:cNvPr"`
		Pic   struct{} `xml:"pic:cNvPicPr"`
	} `xml:"pic:nvPicPr"`
	Fill struct {
		Blip struct {
			Embed string `xml:"r:embed,attr"`
		} `xml:"a:blip"`
		Stretch struct {
			Rect struct{} `xml:"a:fillRect"`
		} `xml:"a:stretch"`
	} `xml:"pic:blipFill"`
	Shape struct {
		Place struct {
			Off struct {
				X int `xml:"x,attr"`
				Y int `xml:"y,attr"`
			} `xml:"a:off"`
			Ext extentX `xml:"a:ext"`
		} `xml:"a:xfrm"`
		Geom struct {
			Prst string   `xml:"prst,attr"`
			List struct{} `xml:"a:avLst"`
		} `xml:"a:prstGeom"`
	} `xml:"pic:spPr"`
}

// Names of the drawing's own namespaces.
const (
	drawingNS = "http://schemas.openxmlformats.org/drawingml/2006/main"
	pictureNS = "http://schemas.openxmlformats.org/drawingml/2006/picture"
)

// drawing is the document's n-th picture at the size of a chart.
func drawing(n int, of *Picture) *drawingX {
	size, alt := extentX{int(figureWide * emuPerMM), int(of.HighMM * emuPerMM)}, of.Alt
	name := imageName(n)
	d := &drawingX{}
	d.Inline.Extent = size
	d.Inline.Props = docPrX{ID: n, Name: name, Descr: xmlText(alt)}
	d.Inline.Frame.Locks.NS, d.Inline.Frame.Locks.Aspect = drawingNS, 1
	g := &d.Inline.Pic
	g.NS, g.Data.URI = drawingNS, pictureNS
	p := &g.Data.Pic
	p.NS = pictureNS
	p.Non.Props = docPrX{ID: n, Name: name, Descr: xmlText(alt)}
	p.Fill.Blip.Embed = imageID(n)
	p.Shape.Place.Ext = size
	p.Shape.Geom.Prst = "rect"
	return d
}
