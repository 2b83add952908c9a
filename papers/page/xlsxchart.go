package page

import (
	"bytes"
	"fmt"
	"image/png"
	"math"

	"github.com/xuri/excelize/v2"
)

// chartPixels is how wide a chart is set in a sheet.
const chartPixels = 640

// chart sets the PNG form of a chart below its caption, and leaves rows for it.
func (x *xlsxWriter) chart(v *Chart) error {
	if len(v.PNG) == 0 {
		return nil
	}
	size, err := png.DecodeConfig(bytes.NewReader(v.PNG))
	if err != nil {
		return fmt.Errorf("reading a chart as PNG: %w", err)
	}
	at, err := excelize.CoordinatesToCellName(1, x.row)
	if err != nil {
		return err
	}
	// Held at one cell: at two it would be drawn out with columns that are widened after it.
	scale := min(1, chartPixels/float64(size.Width))
	if err := x.file.AddPictureFromBytes(x.sheet, at, &excelize.Picture{Extension: ".png", File: v.PNG,
		Format: &excelize.GraphicOptions{ScaleX: scale, ScaleY: scale, AltText: v.Caption, Positioning: "oneCell"}}); err != nil {
		return err
	}
	// At 96 pixels to the inch a pixel is 3/4 of a point.
	x.row += int(math.Ceil(float64(size.Height)*scale*0.75/rowPoints)) + 1
	return nil
}
