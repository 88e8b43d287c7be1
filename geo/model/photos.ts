import { z } from 'zod'
import { day, json, optional, text } from './field.ts'
import { kind, type RecordOf } from './kind.ts'

const lonLat = z.tuple([z.number(), z.number()])

/** An aerial photo of a day, placed by its four corners: upper left, upper right, lower right, lower left (lon/lat). `file` lies in the archive's photos folder. */
export const photos = kind('photos', 'photos.json', {
  id: text(),
  file: text(),
  name: optional(text()),
  on: optional(day()),
  corners: optional(json(z.tuple([lonLat, lonLat, lonLat, lonLat]))),
  control_points: optional(json(z.array(z.unknown()))),
  residuals: optional(json(z.unknown())),
  note: optional(text()),
})
export type Photo = RecordOf<typeof photos>
