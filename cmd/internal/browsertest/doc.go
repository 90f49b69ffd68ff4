// Package browsertest drives a real Chromium for tests that carry the build tag browser.
//
// It looks for /usr/bin/chromium, or what FROSTWARD_CHROMIUM names, and for the axe-core
// script, which FROSTWARD_AXE names. Where they are absent the tests are skipped, but
// fail when CI is true. FROSTWARD_SHOTS names a folder to put pictures of the screen in.
package browsertest
