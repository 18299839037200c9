package phone

import (
	"bufio"
	"encoding/base64"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"testing"
	"time"

	"parewell/recipes"
)

// browser is a real one without a window, driven through two pipes: messages of
// the DevTools protocol, each ended by a zero byte.
type browser struct {
	tb      testing.TB
	in      io.Writer
	out     *bufio.Reader
	next    int
	session string
	events  []string // names of what it complained about
}

func startBrowser(tb testing.TB) *browser {
	tb.Helper()
	program := ""
	for _, name := range []string{"chromium", "chromium-browser", "google-chrome"} {
		if p, err := exec.LookPath(name); err == nil {
			program = p
			break
		}
	}
	if program == "" {
		tb.Skip("there is no chromium on this machine")
	}
	hisIn, in, err := os.Pipe()
	if err != nil {
		tb.Fatal(err)
	}
	out, hisOut, err := os.Pipe()
	if err != nil {
		tb.Fatal(err)
	}
	profile := tb.TempDir()
	cmd := exec.Command(program, "--headless=new", "--no-sandbox", "--disable-gpu", "--disable-dev-shm-usage", "--no-first-run", "--hide-scrollbars",
		"--disable-background-networking", "--disable-component-update", "--remote-debugging-pipe", "--user-data-dir="+profile, "about:blank")
	cmd.ExtraFiles = []*os.File{hisIn, hisOut}
	cmd.Env = append(os.Environ(), "HOME="+profile)
	if err := cmd.Start(); err != nil {
		tb.Fatal(err)
	}
	_ = hisIn.Close()
	_ = hisOut.Close()
	b := &browser{tb: tb, in: in, out: bufio.NewReader(out)}
	tb.Cleanup(func() {
		b.session = ""
		_, _ = b.call("Browser.close", nil)
		stop := time.AfterFunc(5*time.Second, func() { _ = cmd.Process.Kill() })
		_ = cmd.Wait()
		stop.Stop()
		_, _ = in.Close(), out.Close()
	})
	if err := out.SetReadDeadline(time.Now().Add(2 * time.Minute)); err != nil {
		tb.Logf("a browser that hangs is waited for: %v", err)
	}
	target := b.do("Target.createTarget", map[string]any{"url": "about:blank"})["targetId"]
	b.session, _ = b.do("Target.attachToTarget", map[string]any{"targetId": target, "flatten": true})["sessionId"].(string)
	for _, m := range []string{"Page.enable", "Log.enable", "Audits.enable"} {
		b.do(m, nil)
	}
	return b
}

type message struct {
	ID     int            `json:"id"`
	Method string         `json:"method"`
	Params map[string]any `json:"params"`
	Result map[string]any `json:"result"`
	Error  *struct {
		Message string `json:"message"`
	} `json:"error"`
}

func (b *browser) call(method string, params map[string]any) (map[string]any, error) {
	b.next++
	m := map[string]any{"id": b.next, "method": method}
	if params != nil {
		m["params"] = params
	}
	if b.session != "" {
		m["sessionId"] = b.session
	}
	text, err := json.Marshal(m)
	if err != nil {
		return nil, err
	}
	if _, err := b.in.Write(append(text, 0)); err != nil {
		return nil, err
	}
	for {
		got, err := b.read()
		switch {
		case err != nil:
			return nil, err
		case got.ID != b.next:
			continue
		case got.Error != nil:
			return nil, errors.New(method + ": " + got.Error.Message)
		}
		return got.Result, nil
	}
}

// read takes one message; complaints are kept.
func (b *browser) read() (message, error) {
	var m message
	text, err := b.out.ReadBytes(0)
	if err != nil {
		return m, err
	}
	err = json.Unmarshal(text[:len(text)-1], &m)
	if m.Method == "Log.entryAdded" || m.Method == "Audits.issueAdded" {
		b.events = append(b.events, fmt.Sprint(m.Params))
	}
	return m, err
}

func (b *browser) do(method string, params map[string]any) map[string]any {
	b.tb.Helper()
	r, err := b.call(method, params)
	if err != nil {
		b.tb.Fatal(err)
	}
	return r
}

// eval runs an expression in the page, for looking only.
func (b *browser) eval(expression string) any {
	b.tb.Helper()
	r := b.do("Runtime.evaluate", map[string]any{"expression": expression, "returnByValue": true})
	inner, _ := r["result"].(map[string]any)
	if r["exceptionDetails"] != nil {
		b.tb.Fatalf("%s: %v", expression, r["exceptionDetails"])
	}
	return inner["value"]
}

// until waits for an expression to hold.
func (b *browser) until(expression string) {
	b.tb.Helper()
	for range 100 {
		if r, err := b.call("Runtime.evaluate", map[string]any{"expression": "document.readyState=='complete'&&(" + expression + ")", "returnByValue": true}); err == nil {
			if inner, _ := r["result"].(map[string]any); inner["value"] == true {
				return
			}
		}
		time.Sleep(50 * time.Millisecond)
	}
	b.tb.Fatalf("never came true: %s\n%v", expression, b.eval("document.body.innerText"))
}

// tap puts a finger on the middle of what a selector finds.
func (b *browser) tap(selector string) {
	b.tb.Helper()
	at, _ := b.eval(`(()=>{const e=document.querySelector(` + strconv.Quote(selector) + `);e.scrollIntoView({block:'center'});const r=e.getBoundingClientRect();return [r.x+r.width/2,r.y+r.height/2]})()`).([]any)
	if len(at) != 2 {
		b.tb.Fatalf("nothing at %s", selector)
	}
	point := map[string]any{"x": at[0], "y": at[1]}
	b.do("Input.dispatchTouchEvent", map[string]any{"type": "touchStart", "touchPoints": []any{point}})
	b.do("Input.dispatchTouchEvent", map[string]any{"type": "touchEnd", "touchPoints": []any{}})
}

func (b *browser) phone(width, height int, scheme string) {
	b.do("Emulation.setDeviceMetricsOverride", map[string]any{"width": width, "height": height, "deviceScaleFactor": 2, "mobile": true})
	b.do("Emulation.setTouchEmulationEnabled", map[string]any{"enabled": true})
	b.do("Emulation.setEmitTouchEventsForMouse", map[string]any{"enabled": true, "configuration": "mobile"})
	b.scheme(scheme)
}

func (b *browser) scheme(name string) {
	b.do("Emulation.setEmulatedMedia", map[string]any{"features": []any{map[string]any{"name": "prefers-color-scheme", "value": name}}})
}

// shot keeps the whole page in both schemes where pictures are wanted.
func (b *browser) shot(name string) {
	folder := os.Getenv("PAREWELL_SHOTS")
	if folder == "" {
		return
	}
	for _, scheme := range []string{"light", "dark"} {
		b.scheme(scheme)
		r := b.do("Page.captureScreenshot", map[string]any{"format": "png", "captureBeyondViewport": true})
		data, err := base64.StdEncoding.DecodeString(fmt.Sprint(r["data"]))
		if err != nil {
			b.tb.Fatal(err)
		}
		if err := os.WriteFile(filepath.Join(folder, "phone-"+name+"-"+scheme+".png"), data, 0o600); err != nil {
			b.tb.Fatal(err)
		}
	}
	b.scheme("light")
}

// fits wants nothing wider than the phone, every finger target at least 44 px
// high and 32 wide (24 is the least of WCAG 2.2, 2.5.8), a heading, a label for
// each field, and text that stands out 4.5 to 1 (WCAG 2.2, 1.4.3).
func (b *browser) fits(name string) {
	b.tb.Helper()
	for _, scheme := range []string{"light", "dark"} {
		b.scheme(scheme)
		faults, _ := b.eval(lookOver).([]any)
		for _, f := range faults {
			b.tb.Errorf("%s, %s: %v", name, scheme, f)
		}
	}
	b.scheme("light")
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
	b.phone(390, 844, "light")
	b.do("Emulation.setScriptExecutionDisabled", map[string]any{"value": true})
	b.do("Page.navigate", map[string]any{"url": base(s) + "/j/" + s.token})
	b.until(`!!document.querySelector('#code')`)
	b.fits("join")
	b.shot("1-join")
	b.tap("#code")
	b.do("Input.insertText", map[string]any{"text": strings.ToLower(s.Codes()[2])})
	b.tap(".go")
	b.until(`document.querySelector('.go')?.textContent=='Begin'`)
	b.fits("welcome")
	b.shot("2-welcome")
	b.tap(".go")
	cups, _, _ := k.Ballot(2)
	for i, c := range cups.Cups {
		b.until(fmt.Sprintf(`document.querySelector('.cup b')?.textContent=='%d'`, c))
		b.tap("input[name=q0][value='7']")
		b.tap("input[name=q1][value='6']")
		if i == 0 {
			b.fits("cup")
			b.shot("3-cup")
			b.oneMissing()
		}
		b.tap("input[name=q2][value='3']")
		b.tap("button.go")
	}
	b.until(`document.body.innerText.includes('usual recipe')`)
	b.fits("last")
	b.shot("5-last")
	b.tap("input[name=q0][value='0']")
	b.tap("button.go")
	b.until(`document.body.innerText.includes('Thank you')`)
	b.fits("thanks")
	b.shot("6-thanks")
	if got := k.copy()[2]; len(got) != 4 || got[cups.Cups[1]].Scores["Liking"] != 7 || got[cups.Cups[1]].Scores["Creaminess"] != 6 {
		t.Errorf("kept: %v", got)
	}
	b.do("Page.navigate", map[string]any{"url": base(s) + "/nowhere"})
	b.until(`document.body.innerText.includes('nothing here')`)
	b.fits("nothing")
	b.shot("7-nothing")
	for _, e := range b.events {
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
	b.tap("button.go")
	if b.eval(`!!document.querySelector('.alert')`) != false {
		b.tb.Error("the browser sent a form with a gap")
	}
	b.eval(`document.querySelector('main form').noValidate=true`)
	b.tap("button.go")
	b.until(`!!document.querySelector('.alert')`)
	b.fits("missing")
	b.shot("4-missing")
	if b.eval(`document.querySelectorAll('input:checked').length`) != 2.0 {
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
		b.phone(320, 640, "light")
		b.do("Page.navigate", map[string]any{"url": base(s) + "/j/" + s.token})
		b.until(`!!document.querySelector('#code')`)
		b.fits(test + ": join")
		b.tap("#code")
		b.do("Input.insertText", map[string]any{"text": s.Codes()[1]})
		b.tap(".go")
		b.until(`document.querySelector('.go')?.textContent=='Begin'`)
		b.fits(test + ": welcome")
		b.tap(".go")
		b.until(`!!document.querySelector('fieldset')`)
		b.fits(test)
		b.shot("8-" + test)
	}
}
