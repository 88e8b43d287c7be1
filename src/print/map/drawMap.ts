import type { Feature } from 'geojson'
import type { Plane } from '../../../geo/plane/plane.ts'
import type { DrawnMap } from '../../map/farmMap.ts'
import type { Frame } from '../frame.ts'
import { type At, boxSteps, type GroupMark, type Mark, type PathMark, type Stroke } from '../marks.ts'
import type { Type } from '../type/openFonts.ts'
import { hatched } from './hatch.ts'
import { type LabelAsk, placeLabels } from './labels.ts'
import { labelsOf } from './labelsOf.ts'
import { askedOf, type LayerPaint, layerPaint } from './layerPaint.ts'
import { namesOnPage } from './namesOnPage.ts'
import { PAPER_PX_MM, zoomOf } from './paperZoom.ts'
import { parHatches } from './parHatches.ts'
import { placer } from './placer.ts'
import { beside, circleSteps, type Shape, shapesOf, stepsOf, touches } from './shapes.ts'

/**
 * A map on paper: photos, then the theme's layers as lines, areas and words, all within the frame's box. `black`: for
 * toner alone, where hatches stand for a ramp with two dark ends.
 */
export function drawMap(drawn: DrawnMap, plane: Plane, frame: Frame, type: Type, black: boolean): GroupMark {
  const place = placer(plane, frame)
  const zoom = zoomOf(frame.scale, plane.origin[1])
  const sources = { ...drawn.sources, ...namesOnPage(drawn.sources, plane, frame) }
  const marks: Mark[] = []
  const asks: LabelAsk[] = []
  for (const [n, layer] of drawn.layers.entries()) {
    const paint = layerPaint(layer, zoom)
    if (!paint) continue
    if (layer.type === 'background') {
      marks.push(ground(paint, frame))
      for (const { id, corners, opacity } of drawn.photos)
        marks.push({
          draw: 'photo',
          id,
          opacity,
          corners: corners.map(([lon, lat]) => place([lon, lat])) as [At, At, At, At],
        })
      continue
    }
    const aboutPar = layer.id === 'surface' && drawn.ramp.of === 'par'
    const features = 'source' in layer ? (sources[String(layer.source)]?.features ?? []) : []
    for (const feature of aboutPar && black ? [] : features)
      for (const shape of shapesOf(feature.geometry, place)) {
        if (!touches(shape, frame.box, 5)) continue
        if (layer.type === 'symbol') asks.push(...labelsOf(paint, n, feature, shape, frame, type))
        else marks.push(...marksOf(paint, feature, shape, frame))
      }
    if (aboutPar) marks.push(...parHatches(features, place, frame.box, black))
  }
  marks.push(...placeLabels(asks, frame.box, type))
  return { draw: 'group', clip: boxSteps(frame.box), marks }
}

const ground = (paint: LayerPaint, { box }: Frame): PathMark => ({
  draw: 'path',
  steps: boxSteps(box),
  fill: paint.colour('background-color', null),
  stroke: null,
})

const mm = (px: number) => px * PAPER_PX_MM

function marksOf(paint: LayerPaint, feature: Feature, shape: Shape, frame: Frame): Mark[] {
  const asked = askedOf(feature, shape.kind)
  if (!paint.draws(asked)) return []
  switch (paint.layer.type) {
    case 'fill':
      return shape.kind === 'Polygon' ? areaMarks(paint, asked, shape, frame) : []
    case 'line':
      return shape.kind === 'Point' ? [] : lineMarks(paint, asked, shape)
    case 'circle':
      return shape.kind === 'Point' ? circleMarks(paint, asked, shape) : []
    default:
      return []
  }
}

type Asked = ReturnType<typeof askedOf>

function areaMarks(paint: LayerPaint, asked: Asked, shape: Shape, { box }: Frame): Mark[] {
  const opacity = paint.number('fill-opacity', asked)
  const steps = stepsOf(shape)
  if (paint.has('fill-pattern')) return [hatched(steps, box, 1.1, -45, HATCH_LINE)]
  const fill = paint.colour('fill-color', asked)
  if (opacity * fill.opacity < 0.01) return []
  return [{ draw: 'path', steps, fill: { ...fill, opacity: fill.opacity * opacity }, stroke: null }]
}

/** The map's only pattern is that of buildings. */
const HATCH_LINE: Stroke = { colour: '#56605a', opacity: 1, widthMm: 0.13, dashMm: [], cap: 'butt', join: 'miter' }

function lineMarks(paint: LayerPaint, asked: Asked, shape: Shape): Mark[] {
  const width = paint.number('line-width', asked)
  const { colour, opacity } = paint.colour('line-color', asked)
  const strength = opacity * paint.number('line-opacity', asked)
  if (strength < 0.01 || width <= 0) return []
  const stroke: Stroke = {
    colour,
    opacity: strength,
    widthMm: mm(width),
    dashMm: paint.numbers('line-dasharray', asked).map((times) => times * mm(width)),
    cap: paint.words('line-cap', asked) as Stroke['cap'],
    join: paint.words('line-join', asked) as Stroke['join'],
  }
  const gap = paint.number('line-gap-width', asked)
  const off = paint.number('line-offset', asked)
  const sides = gap > 0 ? [off - (gap + width) / 2, off + (gap + width) / 2] : [off]
  return sides.map((side): PathMark => {
    const lines = shape.lines.map((line) => beside(line, mm(side), shape.kind === 'Polygon'))
    return { draw: 'path', steps: stepsOf({ ...shape, lines }), fill: null, stroke }
  })
}

function circleMarks(paint: LayerPaint, asked: Asked, shape: Shape): Mark[] {
  const radius = mm(paint.number('circle-radius', asked))
  const fill = paint.colour('circle-color', asked)
  const stroke = paint.colour('circle-stroke-color', asked)
  const strokeMm = mm(paint.number('circle-stroke-width', asked))
  return shape.lines.flatMap(([at]): Mark[] => [
    {
      draw: 'path',
      steps: circleSteps(at!, radius),
      fill: { ...fill, opacity: fill.opacity * paint.number('circle-opacity', asked) },
      stroke: null,
    },
    {
      draw: 'path',
      steps: circleSteps(at!, radius + strokeMm / 2),
      fill: null,
      stroke: { ...stroke, widthMm: strokeMm, dashMm: [], cap: 'butt', join: 'miter' },
    },
  ])
}
