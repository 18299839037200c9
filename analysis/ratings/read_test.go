package ratings

import (
	"encoding/json"
	"errors"
	"strings"
	"testing"

	"parewell/recipes/problem"
)

const goodScores = "panelist,sample,attribute,score,tasting,position,replicate,pot\n" +
	"P1,A,liking,7,May,1,,\nP1,B,liking,6.5,May,2,,B1\nP2,A,liking,8,May,2,,\nP2,B,liking,7,May,1,,B1\n"

func TestScoresAreRead(t *testing.T) {
	for _, row := range []struct{ name, text string }{
		{"commas", goodScores},
		{"byte-order mark and CRLF", "\xef\xbb\xbf" + strings.ReplaceAll(goodScores, "\n", "\r\n")},
		{"semicolons and decimal comma", strings.ReplaceAll(strings.ReplaceAll(goodScores, ",", ";"), "6.5", "6,5")},
		{"tabs", strings.ReplaceAll(goodScores, ",", "\t")},
		{"another order, other columns, capitals", "Score,Note,SAMPLE,Attribute,pot,Panelist,position,tasting\n7,good,A,liking,,P1,1,May\n6.5,,B,liking,B1,P1,2,May\n8,,A,liking,,P2,2,May\n7,,B,liking,B1,P2,1,May\n"},
		{"blank lines and no last line end", strings.TrimSuffix(strings.ReplaceAll(goodScores, "\nP2", "\n\n,,,,,,,\nP2"), "\n")},
	} {
		table, err := ReadScores([]byte(row.text), "scores.csv")
		if err != nil || len(table.Scores) != 4 {
			t.Errorf("%s: %v, %v", row.name, table, err)
			continue
		}
		s := table.Scores[1]
		if s.Panelist != "P1" || s.Sample != "B" || s.Attribute != "liking" || s.Value != 6.5 || s.Pot != "B1" || s.Position != 2 || s.Tasting != "May" {
			t.Errorf("%s: %+v", row.name, s)
		}
	}
}

func TestBadRowsAreNamed(t *testing.T) {
	head := "panelist,sample,attribute,score,position,replicate\n"
	many := head
	for range 9 {
		many += "P1,A,liking,good,,\n"
	}
	slip := head
	for i := range 30 {
		slip += "P" + string(rune('A'+i)) + ",A,liking,7,,\n"
	}
	for _, row := range []struct{ name, text, want string }{
		{"empty", "", "no score"},
		{"heading only", head, "no score"},
		{"no score column", "panelist,sample,attribute\nP1,A,liking\n", "the column score is missing"},
		{"column twice", "panelist,sample,attribute,score,Score\n", "two columns named"},
		{"not a number", head + "P1,A,liking,good,,\n", `line 2: "good" is not a number`},
		{"nan", head + "P1,A,liking,nan,,\n", "line 2"},
		{"infinite", head + "P1,A,liking,1e999,,\n", "line 2"},
		{"decimal comma between commas", head + "P1,A,liking,\"6,5\",,\n", "line 2"},
		{"out of range", head + "P1,A,liking,7,,\nP1,B,liking,777,,\n", "line 3: 777 is outside -100 to 100"},
		{"a slip", slip + "Q,A,liking,77,,\n", "line 32: 77 is far from"},
		{"no panelist", head + ",A,liking,7,,\n", "line 2: the panelist is empty"},
		{"no sample", head + "P1,,liking,7,,\n", "line 2: the sample is empty"},
		{"short row", head + "P1,A\n", "line 2: the attribute is empty"},
		{"position", head + "P1,A,liking,7,0,\n", "line 2: the position"},
		{"twice", head + "P1,A,liking,7,,\nP2,A,liking,6,,\nP1,A,liking,5,,\n", "line 4: P1 scored A for liking on line 2 already"},
		{"twice with the same replicate", head + "P1,A,liking,7,,1\nP1,A,liking,5,,1\n", "line 3"},
		{"two bad rows", head + "P1,A,liking,x,,\nP1,B,liking,7,,\nP1,C,liking,y,,\n", `line 4: "y"`},
		{"nine bad rows", many, "and 4 more bad lines"},
		{"quotes", head + "P1,\"A,liking,7\nP2,A,liking,6,,\n", "quotation marks"},
	} {
		_, err := ReadScores([]byte(row.text), "scores.csv")
		var p *problem.Error
		if !errors.As(err, &p) || !strings.Contains(err.Error(), row.want) || !strings.HasPrefix(err.Error(), "scores.csv") || strings.Contains(err.Error(), "\n") {
			t.Errorf("%s: %v, want %q", row.name, err, row.want)
		}
	}
}

func TestWhatTellsScoresApart(t *testing.T) {
	text := "panelist,sample,attribute,score,tasting,replicate,pot\nP1,A,liking,7,,1,\nP1,A,liking,5,,2,\nP1,A,liking,5,June,1,\nP1,A,liking,5,,1,second\nP1,A,salt,5,,1,\nP1,B,liking,,,,\n"
	table, err := ReadScores([]byte(text), "scores.csv")
	if err != nil || len(table.Scores) != 5 || table.Blank != 1 {
		t.Errorf("%+v, %v", table, err)
	}
}

func TestSwapsAreRead(t *testing.T) {
	for _, text := range []string{
		"sample,cream,butter\nO,0,0\nA,1,0\nshop,,\n",
		"\xef\xbb\xbfcream;sample;butter\r\n0;O;0\r\n1;A;0\r\n;shop;\r\n",
		"sample,cream,butter,\nO,0,0,\nA,1,0,\nshop,,,\n",
	} {
		s, err := ReadSwaps([]byte(text), "swaps.csv")
		if err != nil || strings.Join(s.Names, " ") != "cream butter" || strings.Join(s.Samples, " ") != "O A shop" || s.On[0][0] || !s.On[1][0] || s.On[1][1] || s.On[2] != nil {
			t.Errorf("%q: %+v, %v", text, s, err)
		}
	}
	for _, row := range []struct{ name, text, want string }{
		{"empty", "", "swaps.csv"},
		{"no sample column", "version,a\nO,0\n", "the first line must be sample"},
		{"no swap", "sample\nO\n", "the first line must be sample"},
		{"a swap without a name", "sample,a,,b\nO,0,0,0\n", "the first line must be sample"},
		{"a swap twice", "sample,a,A\nO,0,0\n", "two columns named"},
		{"not 0 or 1", "sample,a\nO,0\nA,2\n", `line 3: "2" under a is neither 0 nor 1`},
		{"yes", "sample,a\nO,yes\n", "neither 0 nor 1"},
		{"one missing", "sample,a,b\nO,0,0\nA,1\n", "line 3: the line does not have one figure"},
		{"one too many", "sample,a\nO,0,1\n", "line 2"},
		{"sample twice", "sample,a\nO,0\nO,1\n", "line 3: O stands on line 2 already"},
		{"no sample named", "sample,a\n,1\n", "line 2: the sample is empty"},
	} {
		if _, err := ReadSwaps([]byte(row.text), "swaps.csv"); err == nil || !strings.Contains(err.Error(), row.want) {
			t.Errorf("%s: %v, want %q", row.name, err, row.want)
		}
	}
}

// Nothing in a file makes the reader or the analysis fall over, and every report
// is JSON.
func FuzzScores(f *testing.F) {
	f.Add([]byte(goodScores), []byte("sample,cream\nA,0\nB,1\n"))
	f.Add([]byte("\xef\xbb\xbfpanelist;sample;attribute;score;pot\r\n1;A;x;6,5;p\r\n1;B;x;7;q\r\n2;A;x;7;q\r\n"), []byte("sample;a;b\nA;0;1\nB;1;0\n"))
	f.Add([]byte("panelist,sample,attribute,score,tasting,cook,day,position\n1,A,x,6,1,Ann,Mo,1\n1,B,x,7,1,Bo,Mo,2\n2,A,x,7,2,Ann,Tu,1\n"), []byte("sample,a\nA,\nB,1\n"))
	f.Add([]byte("panelist,sample,attribute,score\n1,\"A"), []byte("sample"))
	f.Fuzz(func(t *testing.T, scores, swaps []byte) {
		if len(scores) > 4000 || len(swaps) > 1000 {
			return // large tables take their time, not other ways
		}
		table, err := ReadScores(scores, "scores.csv")
		if err != nil {
			return
		}
		if len(table.Samples()) > 6 || len(table.Attributes()) > 3 {
			return
		}
		if s, err := ReadSwaps(swaps, "swaps.csv"); err == nil {
			table.Swaps = s
		}
		r, err := Analyse(table, Options{Limit: 0.5})
		if err != nil {
			return
		}
		if _, err := json.Marshal(r); err != nil {
			t.Error(err)
		}
		for _, x := range r.Results {
			for _, p := range append(append(x.Against(), x.SwapLines()...), append(x.Explain(), x.Head())...) {
				if s := p.String(); s == "" || strings.Contains(s, "NaN") || strings.Contains(s, "Inf") {
					t.Errorf("said %q", s)
				}
			}
		}
	})
}
