package main

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"parewell/recipes/words"
	"parewell/recipes/workbook"
)

// TestPackagingAgrees holds the files of assets/packaging to what the program
// says of itself; versions and dates are filled in when a package is made.
func TestPackagingAgrees(t *testing.T) {
	mark := fmt.Sprintf("%c%c%c%c", workbook.ApplicationID>>24, workbook.ApplicationID>>16&0xff, workbook.ApplicationID>>8&0xff, workbook.ApplicationID&0xff)
	rows := []struct {
		file string
		want []string
	}{
		{programID + ".desktop", []string{
			"Name=" + programName, "Icon=" + programID, "MimeType=" + workbook.MIMEType + ";", "Exec=parewell %f", "StartupWMClass=" + programName,
		}},
		{programID + ".metainfo.xml", []string{
			"<id>" + programID + "</id>", "<name>" + programName + "</name>", "<mediatype>" + workbook.MIMEType + "</mediatype>",
			programID + ".desktop", `<release version="{version}" date="{date}"/>`,
		}},
		{programID + ".mime.xml", []string{
			fmt.Sprintf("type=%q", workbook.MIMEType), `pattern="*` + workbook.Extension + `"`, fmt.Sprintf(`offset="68" value=%q`, mark),
		}},
		{"control", []string{"Package: parewell\nVersion: {version}\n", "Depends: {depends}\n"}},
	}
	for _, r := range rows {
		b, err := os.ReadFile(filepath.Join("..", "..", "assets", "packaging", r.file))
		if err != nil {
			t.Fatal(err)
		}
		for _, want := range r.want {
			if !strings.Contains(string(b), want) {
				t.Errorf("%s lacks %s", r.file, want)
			}
		}
		if strings.Contains(string(b), version) {
			t.Errorf("%s names version %s, which stands in version.go alone", r.file, version)
		}
	}
}

// TestEveryCommandHasItsHelp: the manual is made from these texts.
func TestEveryCommandHasItsHelp(t *testing.T) {
	for name := range commands() {
		var out, errOut strings.Builder
		if code := run([]string{name, "--help"}, nil, &out, &errOut); code != exitWell || !strings.HasPrefix(out.String(), "parewell "+name) {
			t.Errorf("%s --help: exit %d, %q %q", name, code, out.String(), errOut.String())
		}
		if !strings.Contains(words.Say("help"), "\n  parewell "+name+" ") {
			t.Errorf("help does not list %s", name)
		}
	}
	if len(commands()) != len(commandNames) {
		t.Errorf("%d commands, %d listed", len(commands()), len(commandNames))
	}
}
