package reading

import (
	"strings"

	"parewell/recipes"
	"parewell/recipes/words"
)

// stepSwaps proposes a swap for each step that was rewritten, dropped or added.
func stepSwaps(original *recipes.Recipe, steps []string) []recipes.Swap {
	if len(steps) == 0 {
		return nil
	}
	match := alignSteps(original.Steps, steps)
	var out []recipes.Swap
	add := func(name string, op recipes.Op) {
		out = append(out, recipes.Swap{Recipe: original.ID, Name: name, Ops: []recipes.Op{op}})
	}
	used := make([]bool, len(steps))
	for i, s := range original.Steps {
		j := match[i]
		switch {
		case j < 0:
			add(words.Say("swap.step-gone", i+1), recipes.Op{Kind: recipes.OpStepDrop, Step: s.ID})
		case sameText(s.Text, steps[j]):
			used[j] = true
		default:
			used[j] = true
			add(words.Say("swap.step", i+1), recipes.Op{Kind: recipes.OpStepReplace, Step: s.ID, Text: steps[j]})
		}
	}
	for j, text := range steps {
		if used[j] {
			continue
		}
		after, n := stepBefore(original.Steps, match, j)
		if n == 0 && len(original.Steps) > 0 { // nothing to stand after: it opens the first step
			first := original.Steps[0]
			add(words.Say("swap.step-first"), recipes.Op{Kind: recipes.OpStepReplace, Step: first.ID, Text: text + "\n" + first.Text})
			continue
		}
		add(words.Say("swap.step-new", n), recipes.Op{Kind: recipes.OpStepAdd, Step: after, Text: text})
	}
	return out
}

func sameText(a, b string) bool {
	return strings.EqualFold(squeeze(a), squeeze(b))
}

// stepBefore returns the original's step that draft step j follows.
func stepBefore(old []*recipes.Step, match []int, j int) (recipes.ID, int) {
	best := -1
	for i, m := range match {
		if m >= 0 && m < j {
			best = i
		}
	}
	if best < 0 {
		return "", 0
	}
	return old[best].ID, best + 1
}

// alikeEnough is the share of common words from which two steps count as one
// step rewritten.
const alikeEnough = 0.25

// alignSteps pairs the steps in order so that their likeness adds up to the
// most; -1 marks a step without a partner.
func alignSteps(old []*recipes.Step, steps []string) []int {
	n, m := len(old), len(steps)
	like := make([][]float64, n)
	newWords := make([][]string, m)
	for j := range steps {
		newWords[j] = keyWords(steps[j])
	}
	for i := range old {
		like[i] = make([]float64, m)
		a := keyWords(old[i].Text)
		for j := range steps {
			like[i][j] = overlap(a, newWords[j])
		}
	}
	best := make([][]float64, n+1)
	for i := range best {
		best[i] = make([]float64, m+1)
	}
	for i := n - 1; i >= 0; i-- {
		for j := m - 1; j >= 0; j-- {
			best[i][j] = max(best[i+1][j], best[i][j+1])
			if like[i][j] >= alikeEnough {
				best[i][j] = max(best[i][j], like[i][j]+best[i+1][j+1])
			}
		}
	}
	return trace(best, like, n, m)
}

// trace walks the table of alignSteps from the first pair on.
func trace(best, like [][]float64, n, m int) []int {
	match := make([]int, n)
	for i := range match {
		match[i] = -1
	}
	for i, j := 0, 0; i < n && j < m; {
		switch {
		case like[i][j] >= alikeEnough && best[i][j] == like[i][j]+best[i+1][j+1]:
			match[i] = j
			i++
			j++
		case best[i][j] == best[i+1][j]:
			i++
		default:
			j++
		}
	}
	return match
}
