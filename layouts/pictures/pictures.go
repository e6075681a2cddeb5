// Package pictures draws a plan: what the film will show, and flat maps. Start
// with Camera and Map.
//
// Pictures are made of whole numbers from the polygons' corners on, so the same
// plan gives the same bytes on every processor.
package pictures

import (
	"io"

	"everyseat/mosaic"
)

// Camera writes, as PNG, what the camera records at a cue (from 0); −1 is
// everybody resting. It has the size of the first mark's view. Everybody is
// there; cards are held as unevenly as the stunt says, the same in every run.
func Camera(w io.Writer, p *mosaic.Plan, cue int) error {
	img, err := shoot(p, cue)
	if err != nil {
		return err
	}
	return writePaletted(w, img)
}

// Map writes the flat map of a cue as PNG: the stands from above with the
// camera below, so left and right are as the camera sees them. −1 is everybody resting.
func Map(w io.Writer, p *mosaic.Plan, cue int) error {
	c, err := newChart(p, cue)
	if err != nil {
		return err
	}
	return c.writePNG(w)
}

// MapSVG writes the same map as SVG 1.1. Every seat is a path whose title is its
// id and what it shows.
func MapSVG(w io.Writer, p *mosaic.Plan, cue int) error {
	c, err := newChart(p, cue)
	if err != nil {
		return err
	}
	return c.writeSVG(w, p.Stunt.Title)
}
