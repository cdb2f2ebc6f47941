package main

import (
	"fmt"
	"os"
	"path/filepath"
	"testing"

	"github.com/rogpeppe/go-internal/testscript"

	"tarepage/internal/thorough"
)

func TestMain(m *testing.M) {
	testscript.Main(m, map[string]func(){"build-peak": buildAndPeak, "build": main, "tarepage": main})
}

// TestScripts runs the whole command as its users do: testdata/script/*.txtar.
func TestScripts(t *testing.T) {
	root, err := filepath.Abs("../..")
	if err != nil {
		t.Fatal(err)
	}
	testscript.Run(t, testscript.Params{
		Dir:                 "testdata/script",
		RequireExplicitExec: true,
		RequireUniqueNames:  true,
		UpdateScripts:       os.Getenv("UPDATE_SCRIPTS") != "",
		Setup: func(env *testscript.Env) error {
			// The demo yard, for scripts that start from something that passes.
			env.Setenv("DEMO", root)
			env.Setenv("DEMO_VIDEO", filepath.Join(root, "content", "media", "sb-1003.mp4"))
			env.Setenv("WRONG", filepath.Join(root, "testdata", "wrong"))
			// Scripts have no home. With the user's cache they take the demo's pictures from there;
			// making them takes most of a minute of one processor.
			if cache, err := os.UserCacheDir(); err == nil {
				env.Setenv("XDG_CACHE_HOME", cache)
			}
			return nil
		},
		// [!push] skip leaves a script to .ci/run.
		Condition: func(cond string) (bool, error) {
			if cond != "push" {
				return false, fmt.Errorf("there is no condition %q", cond)
			}
			return thorough.BeforePush(), nil
		},
		Cmds: map[string]func(ts *testscript.TestScript, neg bool, args []string){
			"snapshot": snapshot,
			"status":   exitStatus,
			"replace":  replace,
			"sleep":    pause,
			"yard":     demoYard,
			"windows":  lineEnds("windows"),
			"unix":     lineEnds("unix"),
		},
	})
}
