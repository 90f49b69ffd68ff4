package main

import (
	"context"
	"fmt"
	"io"
	"net"
	"net/netip"
	"os"
	"os/signal"
	"strings"
	"syscall"

	"github.com/spf13/cobra"

	"frostward/cmd/internal/opened"
	"frostward/cmd/internal/view"
	"frostward/cmd/internal/web"
	"frostward/risk"
)

// serveOptions are the options of serve.
type serveOptions struct {
	listen string
	share  bool
	token  string
	names  []string
}

func newServe(a *app) *cobra.Command {
	var o serveOptions
	c := &cobra.Command{
		Annotations: map[string]string{ownForm: "pages to a browser"},
		Use:         "serve",
		Short:       "The page live in a browser, with forms to log and to try",
		Long: `serve shows the garden's page at an address of this machine, anew whenever its files
change, with forms to log a reading, to try a planting, and to mark one as out or picked.
What is written goes into the garden log, as with "frostward log". No scripts are used.

Only this machine can reach the address, unless --listen names another. That asks for
--share, because it means: everyone on that network who knows the word that is printed can
read the garden and write to its log, and what goes between is not encrypted. Share it on
a network at home, never on the open internet.

It stops on an interrupt (Ctrl-C), when what is being written has been written.`,
		Example: `  frostward serve --garden mygarden
  frostward serve --garden mygarden --listen 192.168.1.20:8765 --share`,
		Args: cobra.NoArgs,
		RunE: func(*cobra.Command, []string) error {
			ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt, syscall.SIGTERM)
			defer stop()
			return a.serve(ctx, o)
		},
	}
	f := c.Flags()
	f.StringVar(&o.listen, "listen", "127.0.0.1:8765", "`address:port` to answer at; port 0 takes a free one")
	f.BoolVar(&o.share, "share", false, "let others on the network reach it, with a word to enter")
	f.StringVar(&o.token, "token", "", "the `word` to enter with, in place of a random one")
	f.StringSliceVar(&o.names, "name", nil, "a further host `name` it answers to")
	return c
}

func (a *app) serve(ctx context.Context, o serveOptions) error {
	loopback, err := o.check()
	if err != nil {
		return err
	}
	quiet := *a
	g := &web.Opened{Now: a.today, AsOf: a.asOf != "", Look: func(old *view.Garden) (*view.Garden, error) {
		s, err := quiet.open()
		if err != nil {
			return nil, err
		}
		if old != nil {
			s.Keep(old.Garden)
		}
		return s.look()
	}, Path: func(v *view.Garden, p opened.Planned, x risk.Assessment) string {
		return v.Words.Path(v.Garden, p, x)
	}}
	name, err := g.Open()
	if err != nil {
		return err
	}
	quiet.err = io.Discard // what there was to remark has been
	l, err := net.Listen("tcp", o.listen)
	if err != nil {
		return fmt.Errorf("--listen %s: %w", o.listen, err)
	}
	if !loopback && o.token == "" {
		o.token = web.NewToken()
	}
	fmt.Fprintf(a.out, "http://%s/ shows %s; an interrupt (Ctrl-C) stops it\n", l.Addr(), name)
	if o.token != "" {
		fmt.Fprintf(a.out, "the word to enter with: %s\n", o.token)
	}
	if !loopback {
		a.notef("everyone on the network who knows the word can read the garden and write to its log; nothing is encrypted")
	}
	names := make([]string, len(o.names))
	for i, n := range o.names {
		names[i] = strings.ToLower(n)
	}
	s := web.New(g, web.Options{Today: g.Today, Logf: a.notef, Loopback: loopback, Names: names, Token: o.token})
	return s.Serve(ctx, l)
}

// check says whether only this machine will reach the address, and refuses what was not
// meant.
func (o serveOptions) check() (loopback bool, err error) {
	host, _, err := net.SplitHostPort(o.listen)
	if err != nil {
		return false, usagef("--listen %q; wanted an address and a port, such as 127.0.0.1:8765", o.listen)
	}
	if ip, err := netip.ParseAddr(host); err == nil {
		loopback = ip.Unmap().IsLoopback()
	} else if host == "localhost" {
		loopback = true
	}
	if o.token != "" && len(o.token) < web.MinToken {
		return false, usagef("--token: has %d characters; wanted at least %d", len(o.token), web.MinToken)
	}
	if !loopback && !o.share {
		return false, usagef("--listen %s: others on the network could read the garden and write to its log, unencrypted; --share allows it, with a word to enter", o.listen)
	}
	return loopback, nil
}
