// Command page builds the library into one web page, and serves it on this
// machine or writes it as a file.
//
//	page                     serves it on 127.0.0.1 and prints the address
//	page -port 8080          on another port; 0 is any that is free
//	page -out weft.html      writes it: one file that opens from a disk
//
// The page needs no server: the engine is inside it, compiled to WebAssembly, and
// runs in a worker of the browser. It makes no request, keeps nothing and puts
// nothing into the address; its policy forbids it to.
//
// Run it inside this module, since it compiles the engine with the go command:
//
//	go -C examples/page run .
package main

import (
	"context"
	"errors"
	"flag"
	"fmt"
	"io"
	"os"
	"os/signal"
)

func main() {
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt)
	code := run(ctx, os.Args[1:], os.Stdout, os.Stderr)
	stop()
	os.Exit(code)
}

// run does what the arguments say: 0 done, 1 failed, 2 bad arguments.
func run(ctx context.Context, args []string, stdout, stderr io.Writer) int {
	fs := flag.NewFlagSet("page", flag.ContinueOnError)
	fs.SetOutput(stderr)
	out := fs.String("out", "", "write the page as one `FILE` instead of serving it")
	port := fs.Int("port", 8765, "serve on this port of 127.0.0.1; 0 is any that is free")
	switch err := fs.Parse(args); {
	case errors.Is(err, flag.ErrHelp):
		return 0
	case err != nil:
		return 2
	case fs.NArg() > 0:
		fmt.Fprintf(stderr, "page: unexpected argument %q\n", fs.Arg(0))
		return 2
	case *port < 0 || *port > 65535:
		fmt.Fprintf(stderr, "page: there is no port %d\n", *port)
		return 2
	}
	doc, err := document(ctx)
	if err == nil && *out != "" {
		if err = os.WriteFile(*out, doc, 0o644); err == nil {
			fmt.Fprintf(stdout, "%s: %d bytes, %d when compressed\n", *out, len(doc), compressed(doc))
		}
	} else if err == nil {
		err = serve(ctx, doc, *port, func(address string) { fmt.Fprintf(stdout, "%s\n", address) })
	}
	if err != nil {
		fmt.Fprintln(stderr, "page:", err)
		return 1
	}
	return 0
}
