package phone

import (
	"fmt"
	"strings"
	"testing"

	"parewell/recipes"
	"parewell/testdata/chromium"
)

// browser is a real one, with what a page is looked over for.
type browser struct {
	*chromium.Browser
	tb testing.TB
}

func startBrowser(tb testing.TB) *browser { return &browser{chromium.Start(tb), tb} }

// fits wants nothing wider than the phone, every finger target at least 44 px
// high and 32 wide (24 is the least of WCAG 2.2, 2.5.8), a heading, a label for
// each field, and text that stands out 4.5 to 1 (WCAG 2.2, 1.4.3).
func (b *browser) fits(name string) {
	b.tb.Helper()
	for _, scheme := range []string{"light", "dark"} {
		b.Scheme(scheme)
		faults, _ := b.Eval(lookOver).([]any)
		for _, f := range faults {
			b.tb.Errorf("%s, %s: %v", name, scheme, f)
		}
	}
	b.Scheme("light")
}

const lookOver = `(()=>{
const out=[];
if(document.documentElement.scrollWidth>innerWidth)out.push('wider than the phone: '+document.documentElement.scrollWidth);
if(document.querySelectorAll('h1').length!=1)out.push('headings: '+document.querySelectorAll('h1').length);
for(const e of document.querySelectorAll('button,.pick,a,summary,input.code,textarea')){
  const r=e.getBoundingClientRect(); if(r.width==0)continue;
  if(r.height<44||r.width<30)out.push('small target '+e.textContent.trim().slice(0,30)+' '+Math.round(r.width)+'x'+Math.round(r.height));
}
for(const e of document.querySelectorAll('input:not([type=hidden]),textarea'))if(!e.labels.length||!e.labels[0].textContent.trim())out.push('no label: '+e.name+' '+e.value);
for(const e of document.querySelectorAll('fieldset'))if(!e.querySelector('legend').textContent.trim())out.push('no legend');
const lum=c=>{const v=c.match(/[\d.]+/g).slice(0,3).map(x=>{x/=255;return x<=0.04045?x/12.92:((x+0.055)/1.055)**2.4});return .2126*v[0]+.7152*v[1]+.0722*v[2]};
const ground=e=>{for(;e;e=e.parentElement){const c=getComputedStyle(e).backgroundColor;if(c!='rgba(0, 0, 0, 0)'&&c!='transparent')return c}return 'rgb(255,255,255)'};
const walk=document.createTreeWalker(document.body,NodeFilter.SHOW_TEXT);
for(let n;n=walk.nextNode();){
  if(!n.textContent.trim())continue;
  const e=n.parentElement,s=getComputedStyle(e); if(e.getBoundingClientRect().width<2)continue;
  const a=lum(s.color),b=lum(ground(e)),k=(Math.max(a,b)+.05)/(Math.min(a,b)+.05);
  if(k<4.5)out.push('contrast '+k.toFixed(2)+': '+n.textContent.trim().slice(0,30));
  if(parseFloat(s.fontSize)<16)out.push('small text '+s.fontSize+': '+n.textContent.trim().slice(0,30));
}
return out})()`

// TestChromium does a whole evening with a finger in a real browser that may run
// no script of the page.
func TestChromium(t *testing.T) {
	k := supper(recipes.TestLiking, 3)
	s := open(t, k, 3, nil)
	b := startBrowser(t)
	b.Phone(390, 844, "light")
	b.Do("Emulation.setScriptExecutionDisabled", map[string]any{"value": true})
	b.Do("Page.navigate", map[string]any{"url": base(s) + "/j/" + s.token})
	b.Until(`!!document.querySelector('#code')`)
	b.fits("join")
	b.Shot("1-join")
	b.Write("#code", strings.ToLower(s.Codes()[2]))
	b.Press(".go")
	b.Until(`document.querySelector('.go')?.textContent=='Begin'`)
	b.fits("welcome")
	b.Shot("2-welcome")
	b.Press(".go")
	cups, _, _ := k.Ballot(2)
	for i, c := range cups.Cups {
		b.Until(fmt.Sprintf(`document.querySelector('.cup b')?.textContent=='%d'`, c))
		b.Choose("input[name=q0][value='7']")
		b.Choose("input[name=q1][value='6']")
		if i == 0 {
			b.fits("cup")
			b.Shot("3-cup")
			b.oneMissing()
		}
		b.Choose("input[name=q2][value='3']")
		b.Press("button.go")
	}
	b.Until(`document.body.innerText.includes('usual recipe')`)
	b.fits("last")
	b.Shot("5-last")
	b.Choose("input[name=q0][value='0']")
	b.Press("button.go")
	b.Until(`document.body.innerText.includes('Thank you')`)
	b.fits("thanks")
	b.Shot("6-thanks")
	if got := k.copy()[2]; len(got) != 4 || got[cups.Cups[1]].Scores["Liking"] != 7 || got[cups.Cups[1]].Scores["Creaminess"] != 6 {
		t.Errorf("kept: %v", got)
	}
	b.Do("Page.navigate", map[string]any{"url": base(s) + "/nowhere"})
	b.Until(`document.body.innerText.includes('nothing here')`)
	b.fits("nothing")
	b.Shot("7-nothing")
	for _, e := range b.Events {
		if strings.Contains(e, "favicon") || strings.Contains(e, "/nowhere") || strings.Contains(e, "422") {
			continue // asked for by the browser of its own accord, and by this test
		}
		t.Errorf("the browser complains: %s", e)
	}
}

// oneMissing sends a form whose third question is open: the browser itself asks
// for it, and without its help the page does.
func (b *browser) oneMissing() {
	b.tb.Helper()
	b.Tap("button.go")
	if b.Eval(`!!document.querySelector('.alert')`) != false {
		b.tb.Error("the browser sent a form with a gap")
	}
	b.Eval(`document.querySelector('main form').noValidate=true`)
	b.Press("button.go")
	b.Until(`!!document.querySelector('.alert')`)
	b.fits("missing")
	b.Shot("4-missing")
	if b.Eval(`document.querySelectorAll('input:checked').length`) != 2.0 {
		b.tb.Error("what was picked is gone")
	}
}

// TestChromiumOthers looks at the ballots of other tests, on a narrow phone with
// large text too.
func TestChromiumOthers(t *testing.T) {
	b := startBrowser(t)
	for _, test := range []string{"ranking", "triangle", "duo-trio", "preference", recipes.TestHome} {
		k := supper(test, 1)
		s := open(t, k, 1, nil)
		b.Phone(320, 640, "light")
		b.Do("Page.navigate", map[string]any{"url": base(s) + "/j/" + s.token})
		b.Until(`!!document.querySelector('#code')`)
		b.fits(test + ": join")
		b.Write("#code", s.Codes()[1])
		b.Press(".go")
		b.Until(`document.querySelector('.go')?.textContent=='Begin'`)
		b.fits(test + ": welcome")
		b.Press(".go")
		b.Until(`!!document.querySelector('fieldset')`)
		b.fits(test)
		b.Shot("8-" + test)
	}
}
