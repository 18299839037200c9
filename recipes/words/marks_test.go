package words

import "testing"

func TestNumbersInOtherMarks(t *testing.T) {
	t.Cleanup(func() { Choose("en") })
	rows := []struct {
		name, language, decimal  string
		number, field, thousands string
	}{
		{"English", "en", "", "12.5", "0.125", "12,345.6"},
		{"English with a comma", "en", ",", "12,5", "0,1250", "12\u00a0345,6"},
		{"English as it is", "en", ".", "12.5", "0.125", "12,345.6"},
		{"French with a point", "fr", ".", "12.5", "0.125", "12,345.6"},
		{"a mark that is none", "fr", ";", "12,5", "0,1250", "12\u00a0345,6"},
	}
	for _, r := range rows {
		Choose(r.language)
		Use(Current().Marked(r.decimal))
		if a, b, c := Number(12.5, 1), Field(0.125, 3), Number(12345.6, 1); a != r.number || b != r.field || c != r.thousands {
			t.Errorf("%s: %q %q %q", r.name, a, b, c)
		}
		if Current().Code != r.language || Say("nutrient.fat_g") != Find(r.language).sentences["nutrient.fat_g"] {
			t.Errorf("%s: its sentences changed too", r.name)
		}
	}
}
