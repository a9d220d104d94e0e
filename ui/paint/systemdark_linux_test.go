package paint

import (
	"bufio"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"sync/atomic"
	"testing"
	"time"

	"fyne.io/fyne/v2/theme"
	"github.com/godbus/dbus/v5"
)

// colours is the part of a desktop's portal that tells its settings. It holds
// the colours that it asks for: 0 nothing, 1 dark, 2 light.
type colours struct{ asks atomic.Uint32 }

// ReadOne is the portal's method of that name.
func (d *colours) ReadOne(_, _ string) (dbus.Variant, *dbus.Error) {
	return dbus.MakeVariant(d.asks.Load()), nil
}

func TestLightAndDarkFollowTheDesktopsPortal(t *testing.T) {
	// a bus that starts nothing, such as this machine's own portal
	config := filepath.Join(t.TempDir(), "bus.conf")
	if err := os.WriteFile(config, []byte(`<busconfig><type>session</type><listen>unix:tmpdir=/tmp</listen>
<policy context="default"><allow send_destination="*"/><allow receive_sender="*"/><allow own="*"/></policy></busconfig>`), 0o600); err != nil {
		t.Fatal(err)
	}
	bus := exec.Command("dbus-daemon", "--config-file="+config, "--nofork", "--print-address")
	said, err := bus.StdoutPipe()
	if err != nil {
		t.Fatal(err)
	}
	if err := bus.Start(); err != nil {
		if os.Getenv("CI") != "" {
			t.Fatal(err)
		}
		t.Skip(err)
	}
	t.Cleanup(func() { bus.Process.Kill(); bus.Wait() })
	address, err := bufio.NewReader(said).ReadString('\n')
	if err != nil {
		t.Fatal(err)
	}
	address = strings.TrimSpace(address)
	t.Setenv("DBUS_SESSION_BUS_ADDRESS", address)
	conn, err := dbus.Connect(address)
	if err != nil {
		t.Fatal(err)
	}
	defer conn.Close()
	const path, settings = "/org/freedesktop/portal/desktop", "org.freedesktop.portal.Settings"
	if dark, known := SystemDark(theme.VariantDark); dark || known {
		t.Errorf("without a portal: dark %t, known %t, want neither", dark, known)
	}
	var d colours
	if err := conn.Export(&d, path, settings); err != nil {
		t.Fatal(err)
	}
	if _, err := conn.RequestName("org.freedesktop.portal.Desktop", dbus.NameFlagDoNotQueue); err != nil {
		t.Fatal(err)
	}
	for asks, want := range []bool{false, true, false} {
		d.asks.Store(uint32(asks))
		if dark, known := SystemDark(theme.VariantLight); dark != want || !known {
			t.Errorf("the desktop asks for %d: dark %t, known %t, want %t", asks, dark, known, want)
		}
	}
	changed := make(chan bool, 100)
	go WatchSystem(func() { changed <- true })
	for told := false; !told; { // until the watch has begun
		if err := conn.Emit(path, settings+".SettingChanged", "org.freedesktop.appearance", "color-scheme", dbus.MakeVariant(uint32(1))); err != nil {
			t.Fatal(err)
		}
		select {
		case told = <-changed:
		case <-time.After(20 * time.Millisecond):
		}
	}
}
