package language

import "testing"

// What a delivery has and no food was read of is told as typed, and what was read is not.
func TestUnread(t *testing.T) {
	for text, want := range map[string]string{
		"got 5kg for the price of leeks, 1kg carrots": "5kg for the price of leeks",
		"got 3kg shell on prawns, 1kg leeks":          "",
		"got 3kg prawns shell on £30 and 1kg leeks":   "",
		"used 3kg leeks in the soup":                  "",
	} {
		if got := reader().Read(text).Unread; got != want {
			t.Errorf("%s: %q was not read, want %q", text, got, want)
		}
	}
}
