import { z } from 'zod'
import { between, count, day, flag, json, optional, text } from './field.ts'
import { kind, type RecordOf } from './kind.ts'

const lonLat = z.tuple([z.number(), z.number()])
const spot = z.tuple([z.number(), z.number()])

/** A spot of the picture, as it is shown upright, in pixels of its full size from the upper-left corner, and where it lies. */
const controlPoint = z.looseObject({
  col: z.number(),
  row: z.number(),
  lon: z.number().min(-180).max(180),
  lat: z.number().min(-90).max(90),
})
export type ControlPointKept = z.infer<typeof controlPoint>

/** How a photo was placed by control points: enough to draw it again just so, and to take the placing up again. */
const placing = z.looseObject({
  fit: z.enum(['similarity', 'affine', 'projective']),
  /** Where the plane touches the earth whose metres the transform gives. */
  plane: lonLat,
  /** From pixels to metres in that plane: a projective map, row by row, its last number 1. */
  transform: z.tuple([
    z.number(),
    z.number(),
    z.number(),
    z.number(),
    z.number(),
    z.number(),
    z.number(),
    z.number(),
    z.literal(1),
  ]),
  width_px: z.int().positive(),
  height_px: z.int().positive(),
  tapes: z.array(z.looseObject({ from: spot, to: spot, length_m: z.number().positive() })),
})
export type PhotoPlacing = z.infer<typeof placing>

/**
 * An aerial photo of a day, placed by its four corners (upper left, upper right, lower right, lower left, lon/lat) or by
 * control points with their residuals in metres. `file` lies in the archive's photos folder. Later in the pile lies on top.
 */
export const photos = kind('photos', 'photos.json', {
  id: text(),
  file: text(),
  name: optional(text()),
  on: optional(day()),
  corners: optional(json(z.tuple([lonLat, lonLat, lonLat, lonLat]))),
  control_points: optional(json(z.array(controlPoint))),
  residuals: optional(json(z.unknown())),
  note: optional(text()),
  placed_by: optional(json(placing)),
  opacity: optional(between(0, 1)),
  shown: optional(flag()),
  on_every_sheet: optional(flag()),
  pile: optional(count()),
})
export type Photo = RecordOf<typeof photos>
