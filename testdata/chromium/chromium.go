// Package chromium drives a real browser without a window through the DevTools
// protocol, for tests: touch and looking only.
package chromium

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
	"slices"
	"strconv"
	"testing"
	"time"
)

// Browser is a real one without a window, driven through two pipes: messages of
// the DevTools protocol, each ended by a zero byte.
type Browser struct {
	tb      testing.TB
	in      io.Writer
	out     *bufio.Reader
	next    int
	session string
	process *os.Process
	Events  []string // names of what it complained about
}

// Start starts one, and ends it with the test; without a browser on the machine the
// test is skipped.
func Start(tb testing.TB) *Browser {
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
	b := &Browser{tb: tb, in: in, out: bufio.NewReader(out), process: cmd.Process}
	tb.Cleanup(func() {
		b.session = ""
		_, _ = b.Call("Browser.close", nil)
		stop := time.AfterFunc(5*time.Second, func() { _ = cmd.Process.Kill() })
		_ = cmd.Wait()
		stop.Stop()
		_, _ = in.Close(), out.Close()
	})
	if err := out.SetReadDeadline(time.Now().Add(2 * time.Minute)); err != nil {
		tb.Logf("a browser that hangs is waited for: %v", err)
	}
	target := b.Do("Target.createTarget", map[string]any{"url": "about:blank"})["targetId"]
	b.session, _ = b.Do("Target.attachToTarget", map[string]any{"targetId": target, "flatten": true})["sessionId"].(string)
	for _, m := range []string{"Page.enable", "Log.enable", "Audits.enable"} {
		b.Do(m, nil)
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

// Call sends one message and waits for its answer.
func (b *Browser) Call(method string, params map[string]any) (map[string]any, error) {
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
func (b *Browser) read() (message, error) {
	var m message
	text, err := b.out.ReadBytes(0)
	if err != nil {
		return m, err
	}
	err = json.Unmarshal(text[:len(text)-1], &m)
	if m.Method == "Log.entryAdded" || m.Method == "Audits.issueAdded" {
		b.Events = append(b.Events, fmt.Sprint(m.Params))
	}
	return m, err
}

// Do is Call that must succeed.
func (b *Browser) Do(method string, params map[string]any) map[string]any {
	b.tb.Helper()
	r, err := b.Call(method, params)
	if err != nil {
		b.tb.Fatal(err)
	}
	return r
}

// Eval runs an expression in the page, for looking only.
func (b *Browser) Eval(expression string) any {
	b.tb.Helper()
	r := b.Do("Runtime.evaluate", map[string]any{"expression": expression, "returnByValue": true})
	inner, _ := r["result"].(map[string]any)
	if r["exceptionDetails"] != nil {
		b.tb.Fatalf("%s: %v", expression, r["exceptionDetails"])
	}
	return inner["value"]
}

// Until waits for an expression to hold.
func (b *Browser) Until(expression string) {
	b.tb.Helper()
	if !b.holds(expression, 30*time.Second) {
		b.tb.Fatalf("never came true: %s\n%v", expression, b.Eval("document.body.innerText"))
	}
}

// holds waits for an expression, and tells whether it came to hold in time.
func (b *Browser) holds(expression string, patience time.Duration) bool {
	for end := time.Now().Add(patience); time.Now().Before(end); time.Sleep(50 * time.Millisecond) {
		if r, err := b.Call("Runtime.evaluate", map[string]any{"expression": "document.readyState=='complete'&&(" + expression + ")", "returnByValue": true}); err == nil {
			if inner, _ := r["result"].(map[string]any); inner["value"] == true {
				return true
			}
		}
	}
	return false
}

// Tap puts a finger on the middle of what a selector finds, once the page has come
// to rest with it in sight: a finger on what still scrolls only stops it.
func (b *Browser) Tap(selector string) {
	b.tb.Helper()
	where := `(()=>{const e=document.querySelector(` + strconv.Quote(selector) + `);e.scrollIntoView({block:'center'});const r=e.getBoundingClientRect();return [r.x+r.width/2,r.y+r.height/2]})()`
	at, _ := b.Eval(where).([]any)
	for range 50 {
		time.Sleep(40 * time.Millisecond) // two pictures
		was := at
		if at, _ = b.Eval(where).([]any); slices.Equal(at, was) {
			break
		}
	}
	if len(at) != 2 {
		b.tb.Fatalf("nothing at %s", selector)
	}
	point := map[string]any{"x": at[0], "y": at[1]}
	b.Do("Input.dispatchTouchEvent", map[string]any{"type": "touchStart", "touchPoints": []any{point}})
	b.Do("Input.dispatchTouchEvent", map[string]any{"type": "touchEnd", "touchPoints": []any{}})
}

// Choose taps what can be chosen until it is: a slow machine takes a tap whose end
// comes late for a long press, and a person taps again.
func (b *Browser) Choose(selector string) {
	b.tb.Helper()
	b.tapUntil(selector, "document.querySelector("+strconv.Quote(selector)+")?.checked")
}

// Write taps a field until it has the keyboard and writes in it.
func (b *Browser) Write(selector, text string) {
	b.tb.Helper()
	b.tapUntil(selector, "document.activeElement==document.querySelector("+strconv.Quote(selector)+")")
	b.Do("Input.insertText", map[string]any{"text": text})
}

// Press taps a button until it leads to another page, as Choose does.
func (b *Browser) Press(selector string) {
	b.tb.Helper()
	b.Eval("window.untouched=true")
	b.tapUntil(selector, "!window.untouched")
}

func (b *Browser) tapUntil(selector, expression string) {
	b.tb.Helper()
	for range 5 {
		b.Tap(selector)
		if b.holds(expression, 5*time.Second) {
			return
		}
	}
	b.tb.Fatalf("five taps on %s did nothing\n%v", selector, b.Eval("document.body.innerText"))
}

// Phone makes the page a phone of that size, in a colour scheme.
func (b *Browser) Phone(width, height int, scheme string) {
	b.Do("Emulation.setDeviceMetricsOverride", map[string]any{"width": width, "height": height, "deviceScaleFactor": 2, "mobile": true})
	b.Do("Emulation.setTouchEmulationEnabled", map[string]any{"enabled": true})
	b.Do("Emulation.setEmitTouchEventsForMouse", map[string]any{"enabled": true, "configuration": "mobile"})
	b.Scheme(scheme)
}

// Scheme sets light or dark.
func (b *Browser) Scheme(name string) {
	b.Do("Emulation.setEmulatedMedia", map[string]any{"features": []any{map[string]any{"name": "prefers-color-scheme", "value": name}}})
}

// Shot keeps the whole page in both schemes where pictures are wanted.
func (b *Browser) Shot(name string) {
	folder := os.Getenv("PAREWELL_SHOTS")
	if folder == "" {
		return
	}
	for _, scheme := range []string{"light", "dark"} {
		b.Scheme(scheme)
		r := b.Do("Page.captureScreenshot", map[string]any{"format": "png", "captureBeyondViewport": true})
		data, err := base64.StdEncoding.DecodeString(fmt.Sprint(r["data"]))
		if err != nil {
			b.tb.Fatal(err)
		}
		if err := os.WriteFile(filepath.Join(folder, "phone-"+name+"-"+scheme+".png"), data, 0o600); err != nil {
			b.tb.Fatal(err)
		}
	}
	b.Scheme("light")
}

// Kill ends the browser in the middle of whatever it does, as a phone that falls
// into the soup.
func (b *Browser) Kill() { _ = b.process.Kill() }
