package reading

import (
	"bytes"
	"encoding/json"
	"html"
	"strings"

	"golang.org/x/net/html/atom"

	xhtml "golang.org/x/net/html"

	"parewell/recipes/problem"
)

// maxDepth bounds how deep a page's elements are followed.
const maxDepth = 300

// page is what a saved web page holds for us.
type page struct {
	scripts [][]byte // JSON-LD blocks
	text    strings.Builder
}

// readPage reads the recipes of a saved web page: its JSON-LD blocks, else its
// visible text as if pasted.
func readPage(data []byte, opt Options) ([]*Draft, error) {
	root, err := xhtml.Parse(bytes.NewReader(data))
	if err != nil {
		return nil, &problem.Error{Where: opt.Where, What: "the page cannot be read", Hint: "copy the recipe's text and paste it", Err: err}
	}
	p := &page{}
	p.walk(root, 0)
	var found []map[string]any
	for _, block := range p.scripts {
		found = append(found, recipesInBlock(block)...)
	}
	if drafts, err := draftsOf(found, opt); err == nil {
		return drafts, nil
	}
	d, err := ReadText(p.text.String(), opt)
	if err != nil {
		return nil, problem.New(opt.Where, "no recipe was found in this page", "copy the recipe's text from the page and paste it")
	}
	return []*Draft{d}, nil
}

// recipesInBlock reads one script block, forgiving stray marks around the JSON
// and line breaks inside its strings.
func recipesInBlock(block []byte) []map[string]any {
	s := strings.TrimSpace(string(block))
	s = strings.TrimSuffix(strings.TrimPrefix(s, "<!--"), "-->")
	s = strings.TrimSuffix(strings.TrimPrefix(strings.TrimSpace(s), "//<![CDATA["), "//]]>")
	s = strings.TrimSuffix(strings.TrimSpace(s), ";")
	for _, mend := range []func(string) string{
		func(s string) string { return s },
		func(s string) string { return strings.Map(dropControl, s) },
		func(s string) string { return dropCommas(strings.Map(dropControl, s)) },
	} {
		var root any
		dec := json.NewDecoder(strings.NewReader(mend(s)))
		dec.UseNumber()
		if dec.Decode(&root) != nil {
			continue
		}
		nodes := 0
		var found []map[string]any
		findRecipes(root, &nodes, &found)
		return found
	}
	return nil
}

// dropCommas leaves out commas before a closing bracket, which hand-made pages
// often have; commas inside strings stay.
func dropCommas(s string) string {
	var b strings.Builder
	inside, escaped := false, false
	for i := 0; i < len(s); i++ {
		c := s[i]
		switch {
		case escaped:
			escaped = false
		case inside && c == '\\':
			escaped = true
		case c == '"':
			inside = !inside
		case c == ',' && !inside:
			if next := strings.TrimLeft(s[i+1:], " "); strings.HasPrefix(next, "]") || strings.HasPrefix(next, "}") {
				continue
			}
		}
		b.WriteByte(c)
	}
	return b.String()
}

func dropControl(r rune) rune {
	if r < ' ' {
		return ' '
	}
	return r
}

// blocks are elements whose text stands on lines of its own.
var blocks = map[atom.Atom]bool{
	atom.P: true, atom.Div: true, atom.Li: true, atom.Ul: true, atom.Ol: true, atom.H1: true, atom.H2: true, atom.H3: true, atom.H4: true, atom.H5: true,
	atom.Tr: true, atom.Table: true, atom.Section: true, atom.Article: true, atom.Header: true, atom.Footer: true, atom.Br: true, atom.Dt: true, atom.Dd: true,
	atom.Main: true, atom.Aside: true, atom.Figure: true, atom.Blockquote: true, atom.Title: true, atom.Label: true, atom.Option: true,
}

// walk gathers script blocks and visible text.
func (p *page) walk(n *xhtml.Node, depth int) {
	if depth > maxDepth {
		return
	}
	if n.Type == xhtml.ElementNode {
		switch n.DataAtom {
		case atom.Script:
			p.script(n)
			return
		case atom.Style, atom.Noscript, atom.Template, atom.Nav, atom.Svg, atom.Select, atom.Button, atom.Head:
			if n.DataAtom == atom.Head {
				p.headScripts(n)
			}
			return
		}
		if blocks[n.DataAtom] {
			p.text.WriteByte('\n')
		}
	}
	if n.Type == xhtml.TextNode {
		p.text.WriteString(strings.Map(spaces, n.Data))
	}
	for c := n.FirstChild; c != nil; c = c.NextSibling {
		p.walk(c, depth+1)
	}
	if n.Type == xhtml.ElementNode && blocks[n.DataAtom] {
		p.text.WriteByte('\n')
	}
}

func spaces(r rune) rune {
	if r == '\n' || r == '\r' || r == '\t' {
		return ' '
	}
	return r
}

func (p *page) headScripts(head *xhtml.Node) {
	for c := head.FirstChild; c != nil; c = c.NextSibling {
		if c.Type == xhtml.ElementNode && c.DataAtom == atom.Script {
			p.script(c)
		}
	}
}

// script keeps a JSON-LD block.
func (p *page) script(n *xhtml.Node) {
	for _, a := range n.Attr {
		if a.Key == "type" && strings.Contains(strings.ToLower(a.Val), "ld+json") && n.FirstChild != nil {
			p.scripts = append(p.scripts, []byte(n.FirstChild.Data))
		}
	}
}

// plainText strips tags and entities from a text that may hold HTML; elements
// that stand on their own lines leave line breaks.
func plainText(s string) string {
	s = strings.TrimSpace(s)
	for range 2 { // some pages escape twice
		if strings.ContainsRune(s, '&') {
			s = html.UnescapeString(s)
		}
	}
	if !strings.ContainsRune(s, '<') {
		return strings.TrimSpace(s)
	}
	nodes, err := xhtml.ParseFragment(strings.NewReader(strings.ReplaceAll(s, "\n", "<br>")), &xhtml.Node{Type: xhtml.ElementNode, Data: "div", DataAtom: atom.Div})
	if err != nil {
		return s
	}
	p := &page{}
	for _, n := range nodes {
		p.walk(n, 0)
	}
	var lines []string
	for _, l := range strings.Split(p.text.String(), "\n") {
		if l = squeeze(l); l != "" {
			lines = append(lines, l)
		}
	}
	return strings.Join(lines, "\n")
}
