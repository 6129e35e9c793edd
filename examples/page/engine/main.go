//go:build js && wasm

// Command engine is the library in a browser: a worker calls it with the name of
// a call and its arguments as JSON, and gets the reply as JSON.
package main

import (
	"context"
	"runtime/debug"
	"syscall/js"
	_ "time/tzdata" // a browser has no zone files

	"example.org/weft/examples/page/bridge"
)

func main() {
	debug.SetGCPercent(400) // plans are short-lived; memory is there
	var desk bridge.Desk
	self := js.Global()
	stage := func(what string, done, of int) { self.Call("weftStage", what, done, of) }
	self.Set("weftCall", js.FuncOf(func(_ js.Value, args []js.Value) any {
		return string(desk.Call(context.Background(), args[0].String(), []byte(args[1].String()), stage))
	}))
	self.Call("weftReady")
	select {}
}
