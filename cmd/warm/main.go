package main
import ("fyne.io/fyne/v2/app";"fyne.io/fyne/v2/widget";_ "github.com/mattn/go-sqlite3";_ "github.com/jmoiron/sqlx";_ "gonum.org/v1/plot";_ "gonum.org/v1/plot/vg/vgimg";_ "gonum.org/v1/plot/vg/vgpdf";_ "gonum.org/v1/plot/vg/vgsvg")
func main(){a:=app.New();w:=a.NewWindow("x");w.SetContent(widget.NewLabel("x"));w.ShowAndRun()}
