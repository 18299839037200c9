package parts

import (
	"fmt"
	"image"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/widget"
)

// Art names a drawing of an empty page.
type Art string

// The drawings: a pot for recipes, boxes with ticks for swaps, cups for tastings,
// scales for keep or drop, a sheet for the printed page, people for tasters, a
// plate for meals, a jar for foods, a glass for searches.
const (
	ArtPot    Art = "pot"
	ArtTicks  Art = "ticks"
	ArtCups   Art = "cups"
	ArtScales Art = "scales"
	ArtSheet  Art = "sheet"
	ArtPeople Art = "people"
	ArtPlate  Art = "plate"
	ArtJar    Art = "jar"
	ArtSearch Art = "search"
)

// Each drawing is 120 by 96. {soft}, {line}, {accent} and {paper} are filled with
// the theme's colours.
var arts = map[Art]string{
	ArtPot: `<ellipse cx="60" cy="84" rx="46" ry="6" fill="{soft}"/>
<path fill="{line}" d="M22 40H98V70A14 14 0 0 1 84 84H36A14 14 0 0 1 22 70Z"/>
<path fill="{paper}" d="M26 44H94V69A11 11 0 0 1 83 80H37A11 11 0 0 1 26 69Z"/>
<path fill="{accent}" d="M18 34H102V40H18Z"/><path fill="{line}" d="M54 26H66V34H54Z"/>
<path fill="{line}" d="M8 48H22V54H8ZM98 48H112V54H98Z"/>
<path fill="{accent}" d="M40 60H80V64H40Z"/><path fill="{soft}" d="M40 8C46 12 36 16 42 21H46C40 15 50 12 44 8ZM74 8C80 12 70 16 76 21H80C74 15 84 12 78 8Z"/>`,
	ArtTicks: `<ellipse cx="60" cy="88" rx="46" ry="5" fill="{soft}"/>
<path fill="{line}" d="M16 10H104V84H16Z"/><path fill="{paper}" d="M19 26H101V81H19Z"/>
<path fill="{soft}" d="M26 34H56V40H26ZM26 51H50V57H26ZM26 68H58V74H26Z"/>
<path fill="{accent}" d="M66 32H76V42H66ZM84 49H94V59H84ZM66 66H76V76H66ZM84 66H94V76H84Z"/>
<path fill="{line}" d="M84 32H94V42H84ZM66 49H76V59H66Z"/><path fill="{paper}" d="M86 34H92V40H86ZM68 51H74V57H68Z"/>`,
	ArtCups: `<ellipse cx="60" cy="84" rx="50" ry="6" fill="{soft}"/>
<path fill="{line}" d="M8 44H38L34 82H12Z"/><path fill="{paper}" d="M11 47H35L31.5 79H14.5Z"/>
<path fill="{line}" d="M45 36H75L71 82H49Z"/><path fill="{paper}" d="M48 39H72L68.5 79H51.5Z"/><path fill="{accent}" d="M49.5 54H70.5L68.6 76H51.4Z"/>
<path fill="{line}" d="M82 44H112L108 82H86Z"/><path fill="{paper}" d="M85 47H109L105.5 79H88.5Z"/>
<path fill="{soft}" d="M13 58H33L32 70H14ZM87 58H107L106 70H88Z"/><path fill="{accent}" d="M52 14H68V26H52Z"/><path fill="{paper}" d="M55 19H65V21H55Z"/>`,
	ArtScales: `<ellipse cx="60" cy="88" rx="40" ry="5" fill="{soft}"/>
<path fill="{line}" d="M58 18H62V84H58Z"/><path fill="{accent}" d="M44 82H76V88H44Z"/>
<path fill="{accent}" d="M14 28L105 16L105.5 20L14.5 32Z"/><path fill="{line}" d="M54 12A6 6 0 0 1 66 12A6 6 0 0 1 54 12Z"/>
<path fill="{line}" d="M20 30L32 58H28L19 36L10 58H6L18 30Z"/><path fill="{line}" d="M100 19L112 47H108L99 25L90 47H86L98 19Z"/>
<path fill="{soft}" d="M4 58H34A15 12 0 0 1 4 58Z"/><path fill="{accent}" d="M84 47H114A15 12 0 0 1 84 47Z"/>`,
	ArtSheet: `<ellipse cx="60" cy="90" rx="38" ry="4" fill="{soft}"/>
<path fill="{line}" d="M30 6H76L92 22V88H30Z"/><path fill="{paper}" d="M33 9H74V24H89V85H33Z"/><path fill="{soft}" d="M77 10L88 21H77Z"/>
<path fill="{accent}" d="M40 20H66V26H40Z"/><path fill="{soft}" d="M40 34H82V38H40ZM40 43H82V47H40ZM40 52H70V56H40Z"/>
<path fill="{line}" d="M40 64H82V78H40Z"/><path fill="{paper}" d="M42 66H60V76H42ZM62 66H80V76H62Z"/>`,
	ArtPeople: `<ellipse cx="60" cy="88" rx="50" ry="5" fill="{soft}"/>
<path fill="{soft}" d="M16 40A12 12 0 0 1 40 40A12 12 0 0 1 16 40ZM8 84A20 24 0 0 1 48 84ZM80 40A12 12 0 0 1 104 40A12 12 0 0 1 80 40ZM72 84A20 24 0 0 1 112 84Z"/>
<path fill="{line}" d="M44 30A16 16 0 0 1 76 30A16 16 0 0 1 44 30ZM32 88A28 36 0 0 1 88 88Z"/>
<path fill="{paper}" d="M48 30A12 12 0 0 1 72 30A12 12 0 0 1 48 30ZM36 84A24 30 0 0 1 84 84Z"/><path fill="{accent}" d="M52 68H68V74H52Z"/>`,
	ArtPlate: `<ellipse cx="60" cy="88" rx="46" ry="5" fill="{soft}"/>
<path fill="{line}" d="M26 48A34 34 0 0 1 94 48A34 34 0 0 1 26 48Z"/><path fill="{paper}" d="M30 48A30 30 0 0 1 90 48A30 30 0 0 1 30 48Z"/>
<path fill="{soft}" d="M40 48A20 20 0 0 1 80 48A20 20 0 0 1 40 48Z"/><path fill="{accent}" d="M60 32A16 16 0 0 1 76 48H60Z"/>
<path fill="{line}" d="M8 16H11V34H14V16H17V36A4 4 0 0 1 14 40V82H11V40A4 4 0 0 1 8 36ZM104 16A8 14 0 0 1 110 30V46H107V82H104Z"/>`,
	ArtJar: `<ellipse cx="60" cy="88" rx="34" ry="5" fill="{soft}"/>
<path fill="{accent}" d="M38 8H82V18H38Z"/><path fill="{line}" d="M42 20H78V28A14 14 0 0 1 88 40V76A10 10 0 0 1 78 86H42A10 10 0 0 1 32 76V40A14 14 0 0 1 42 28Z"/>
<path fill="{paper}" d="M45 23H75V31A12 12 0 0 1 85 42V75A8 8 0 0 1 77 83H43A8 8 0 0 1 35 75V42A12 12 0 0 1 45 31Z"/>
<path fill="{soft}" d="M35 58H85V75A8 8 0 0 1 77 83H43A8 8 0 0 1 35 75Z"/><path fill="{line}" d="M44 44H76V66H44Z"/><path fill="{paper}" d="M46 46H74V64H46Z"/><path fill="{accent}" d="M51 51H69V54H51ZM51 57H63V60H51Z"/>`,
	ArtSearch: `<ellipse cx="60" cy="88" rx="36" ry="5" fill="{soft}"/>
<path fill="{line}" d="M26 40A28 28 0 0 1 82 40A28 28 0 0 1 26 40Z"/><path fill="{paper}" d="M30 40A24 24 0 0 1 78 40A24 24 0 0 1 30 40Z"/>
<path fill="{accent}" d="M72 57L77 52L100 75A4 4 0 0 1 95 80Z"/><path fill="{soft}" d="M40 32H68V36H40ZM40 42H60V46H40Z"/>`,
}

// NewArt returns a drawing in the theme's colours.
func NewArt(a Art) fyne.CanvasObject {
	p := &artwork{art: a}
	p.ExtendBaseWidget(p)
	return p
}

type artwork struct {
	widget.BaseWidget
	art Art
}

// CreateRenderer is part of fyne.Widget. The drawing is made when it is painted:
// most empty pages are never seen, and drawing one takes as long as a table.
func (p *artwork) CreateRenderer() fyne.WidgetRenderer {
	picture := canvas.NewRaster(p.paint)
	d := &drawn{objects: []fyne.CanvasObject{picture}}
	d.min = func() fyne.Size { return fyne.NewSize(120, 96) }
	d.layout = func(s fyne.Size) { picture.Resize(s) }
	d.refresh = picture.Refresh
	return d.start()
}

// paint draws at a size in device pixels: a picture in no window has one of them
// a unit.
func (p *artwork) paint(w, h int) image.Image {
	img := canvas.NewImageFromResource(p.resource())
	img.Resize(fyne.NewSize(float32(w), float32(h)))
	return img.Image
}

// resource fills the colours in; the cache is by name, so the ground is part of it.
func (p *artwork) resource() fyne.Resource {
	key := fmt.Sprintf("art-%s-%s.svg", p.art, css(Colour(p, RoleGround))[1:])
	r, ok := painted[key]
	if !ok {
		line := mix(Colour(p, RoleMuted), Colour(p, RoleCard), 0.25)
		soft := mix(Colour(p, RoleHairline), Colour(p, RoleOutline), 0.12)
		body := strings.NewReplacer("{soft}", css(soft), "{line}", css(line),
			"{accent}", css(Colour(p, RoleAccent)), "{paper}", css(Colour(p, RoleCard))).Replace(arts[p.art])
		r = fyne.NewStaticResource(key, []byte(`<svg xmlns="http://www.w3.org/2000/svg" width="120" height="96" viewBox="0 0 120 96">`+body+`</svg>`))
		painted[key] = r
	}
	return r
}

// NewEmptyState fills an empty page: a drawing, what this place is for, one
// sentence on what to do next, and buttons for it.
func NewEmptyState(a Art, title, sentence string, buttons ...fyne.CanvasObject) fyne.CanvasObject {
	words := newText(sentence, SizeBody, RoleMuted, false)
	words.Align = fyne.TextAlignCenter
	head := newText(title, SizeSubheading, RoleInk, true)
	head.Align = fyne.TextAlignCenter
	column := Rows(GapMedium, middle(NewArt(a)), head, words)
	if len(buttons) > 0 {
		column.Add(Pad(4, 0, 0, 0, middle(Line(GapSmall, buttons...))))
	}
	return centreBox(420, column)
}
