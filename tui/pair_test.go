package tui

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

func TestAligning(t *testing.T) {
	for _, c := range []struct {
		key  string
		want [2]float64
	}{
		{"l", [2]float64{420, 5}}, {"r", [2]float64{416, 5}}, {"f", [2]float64{340, 0}},
		{"b", [2]float64{340, 2}}, {"s", [2]float64{340, 1}}, {"c", [2]float64{418, 5}},
	} {
		p := newPlayer(t, Options{}, 80, 24).keys("/").text("echo").keys("enter", "n")
		assert.Equal(t, pairing, p.m.mode)
		assert.Equal(t, "rasp", p.m.other, "the nearest")
		p.keys(c.key) // Echo 70 x 120 at 340, 5; Rasp 66 x 122 at 420, 0
		assert.Equal(t, c.want, p.at("echo"), c.key)
		assert.Equal(t, onBoard, p.m.mode)
		assert.Contains(t, p.m.note.text, "in line")
		p.keys("u")
		assert.Equal(t, [2]float64{340, 5}, p.at("echo"), "one edit")
	}
}

func TestExchanging(t *testing.T) {
	p := newPlayer(t, Options{}, 80, 24).keys("/").text("echo").keys("enter", "n", "x")
	assert.Equal(t, [2]float64{416, 0}, p.at("echo"), "the right edge of the two stays")
	assert.Equal(t, [2]float64{340, 5}, p.at("rasp"))
	p.keys("u")
	assert.Equal(t, [2]float64{340, 5}, p.at("echo"), "one edit for both")
	assert.Equal(t, [2]float64{420, 0}, p.at("rasp"))
}

func TestChoosingTheNeighbour(t *testing.T) {
	p := newPlayer(t, Options{NoColor: true}, 80, 24).keys("/").text("echo").keys("enter", "n")
	x, y := p.cellAt(460, 240)
	p.click(x, y)
	assert.Equal(t, "tuner", p.m.other, "a click chooses the other unit")
	assert.Equal(t, "echo", p.m.selected)
	x, y = p.cellAt(370, 40)
	p.click(x, y)
	assert.Equal(t, "tuner", p.m.other, "the chosen one is no neighbour of itself")
	p.keys("down")
	assert.Equal(t, "rasp", p.m.other)
	p.keys("left")
	assert.Equal(t, "bow", p.m.other, "over the chosen one, which lies between")
	for range 20 {
		p.keys("tab")
		assert.NotEqual(t, "echo", p.m.other)
		assert.NotEqual(t, "late", p.m.other, "without a place")
	}
	assert.Contains(t, p.m.View(), "x exchanges")
	p.keys("esc")
	assert.Equal(t, onBoard, p.m.mode)
	assert.False(t, p.m.history.Dirty())
	p.keys("/").text("late").keys("enter", "n")
	assert.Equal(t, onBoard, p.m.mode)
	assert.Contains(t, p.m.note.text, "no place")
}
