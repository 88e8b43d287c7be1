import type { Metres } from '../../../geo/plane/lonLat.ts'
import type { Plane } from '../../../geo/plane/plane.ts'
import type { DrawnMap } from '../../map/farmMap.ts'
import { type STANDARD_SCALES, spreadOf, standardScale, tightestScale } from '../frame.ts'
import { drawMap } from '../map/drawMap.ts'
import { type At, type Box, boxMark, type Mark } from '../marks.ts'
import type { Type } from '../type/openFonts.ts'
import type { Block } from './blocks.ts'
import { INK, SOFT } from './ink.ts'

/** A map among a list's blocks, north up, at the largest standard scale at which the places fit; the scale stands in its corner. */
export function insetMap(
  asked: {
    readonly drawn: DrawnMap
    readonly plane: Plane
    readonly extent: readonly Metres[]
    /** Points with a letter in a disc, drawn over all else. */
    readonly marks: readonly { readonly letter: string; readonly at: Metres }[]
    readonly units: keyof typeof STANDARD_SCALES
    readonly highMm: number
    readonly caption: string | null
    readonly black: boolean
  },
  type: Type,
): Block {
  const { drawn, plane, extent, marks, units, highMm, caption, black } = asked
  const draw = (box: Box): readonly Mark[] => {
    const spread = spreadOf(extent, 0)
    if (!spread) return []
    const scale = standardScale(tightestScale(spread, box, 3), units)
    const told = `1:${scale}, north up`
    const size = 2.6
    const wide = type.widthMm(told, size, 'sans') + 2
    const corner = { xMm: box.xMm + box.wideMm - wide, yMm: box.yMm + box.highMm - 4, wideMm: wide, highMm: 4 }
    return [
      drawMap(drawn, plane, { box, centre: spread.centre, scale, upDeg: 0 }, type, black),
      ...marks.flatMap(({ letter, at }) =>
        letterMarks(letter, [
          box.xMm + box.wideMm / 2 + ((at[0] - spread.centre[0]) * 1000) / scale,
          box.yMm + box.highMm / 2 - ((at[1] - spread.centre[1]) * 1000) / scale,
        ]),
      ),
      boxMark(corner, '#ffffff', SOFT, 0.15),
      {
        draw: 'text',
        text: told,
        at: [corner.xMm + wide / 2, corner.yMm + 2.9],
        sizeMm: size,
        face: 'sans',
        colour: INK,
        anchor: 'middle',
        turnDeg: 0,
        halo: null,
      },
      boxMark(box, null, INK, 0.35),
    ]
  }
  return { block: 'map', map: { highMm, draw, caption } }
}

/** A letter in a disc about a place, for what is named by it beside the map. */
function letterMarks(letter: string, [x, y]: At): Mark[] {
  const r = 2.2
  // A circle by four cubic curves: handles of 0.5523 of the radius.
  const h = r * 0.5523
  return [
    {
      draw: 'path',
      steps: [
        ['M', x + r, y],
        ['C', x + r, y + h, x + h, y + r, x, y + r],
        ['C', x - h, y + r, x - r, y + h, x - r, y],
        ['C', x - r, y - h, x - h, y - r, x, y - r],
        ['C', x + h, y - r, x + r, y - h, x + r, y],
        ['Z'],
      ],
      fill: { colour: INK, opacity: 1 },
      stroke: { colour: '#ffffff', opacity: 1, widthMm: 0.4, dashMm: [], cap: 'butt', join: 'round' },
    },
    {
      draw: 'text',
      text: letter,
      at: [x, y + 1],
      sizeMm: 2.9,
      face: 'sansBold',
      colour: '#ffffff',
      anchor: 'middle',
      turnDeg: 0,
      halo: null,
    },
  ]
}
