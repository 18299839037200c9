package parts

import (
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
)

// An empty page that is not seen costs no drawing.
func TestArtIsDrawnWhenItIsSeen(t *testing.T) {
	was := painted
	t.Cleanup(func() { painted = was })
	painted = map[string]fyne.Resource{}
	hidden := container.NewStack(NewArt(ArtPot))
	hidden.Hide()
	w := inWindow(t, fyne.NewSize(300, 200), container.NewStack(hidden))
	w.Canvas().Capture()
	if len(painted) != 0 {
		t.Errorf("drawn unseen: %d", len(painted))
	}
	hidden.Show()
	empty, _ := NewArt(ArtPot).(*artwork)
	if len(painted) != 0 || w.Canvas().Capture() == nil || len(painted) != 1 {
		t.Errorf("%d drawings once it is seen", len(painted))
	}
	if img := empty.paint(240, 192); img == nil || img.Bounds().Dx() != 240 || img.Bounds().Dy() != 192 {
		t.Errorf("at twice the size: %v", img)
	}
}
