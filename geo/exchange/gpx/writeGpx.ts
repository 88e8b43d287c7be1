import type { Geometry, Position } from 'geojson'
import type { FarmContent, Fault } from '../archive.ts'
import type { Written } from '../driver.ts'
import { type GivenFeature, givenLayers } from '../layers/givenLayers.ts'
import { textElement, xmlText } from '../xml/xmlText.ts'

/** Namespace of our own extensions. */
const OURS = 'urn:selion:gpx:1'

/**
 * A farm as GPX 1.1, for devices that show the way: points as waypoints, lines and outlines as tracks. What GPX has no
 * element for stands in its extensions, so that it can be read back; an area of several parts becomes one track each.
 */
export function writeGpx(content: FarmContent): Written {
  const notes: Fault[] = []
  const points: string[] = []
  const tracks: string[] = []
  for (const { kind, features } of givenLayers(content))
    for (const feature of features) {
      const parts = partsOf(feature.geometry)
      if (parts.length > 1)
        notes.push({
          file: kind.file,
          record: String(feature.values.id),
          field: 'geometry',
          reason: `is in ${parts.length} parts, each written for itself: GPX has no areas of several parts`,
        })
      for (const [i, part] of parts.entries()) {
        const one =
          i === 0 ? feature : { ...feature, values: { ...feature.values, id: `${feature.values.id}-${i + 1}` } }
        if (part.type === 'Point')
          points.push(`<wpt ${at(part.coordinates)}>${height(part.coordinates)}${tell(kind.name, one, 'point')}</wpt>`)
        else
          tracks.push(`<trk>${tell(kind.name, one, part.type === 'Polygon' ? 'area' : 'line')}${segments(part)}</trk>`)
      }
    }
  const text = [
    '<?xml version="1.0" encoding="UTF-8"?>',
    `<gpx version="1.1" creator="Selion" xmlns="http://www.topografix.com/GPX/1/1" xmlns:selion="${OURS}">`,
    `<metadata>${textElement('name', content.farm.name)}</metadata>`,
    ...points,
    ...tracks,
    '</gpx>\n',
  ].join('\n')
  return { bytes: new TextEncoder().encode(text), notes }
}

type Part = Extract<Geometry, { type: 'Point' | 'LineString' | 'Polygon' }>

function partsOf(geometry: Geometry): Part[] {
  switch (geometry.type) {
    case 'GeometryCollection':
      return geometry.geometries.flatMap(partsOf)
    case 'MultiPoint':
      return geometry.coordinates.map((coordinates) => ({ type: 'Point', coordinates }))
    case 'MultiLineString':
      return geometry.coordinates.map((coordinates) => ({ type: 'LineString', coordinates }))
    case 'MultiPolygon':
      return geometry.coordinates.map((coordinates) => ({ type: 'Polygon', coordinates }))
    default:
      return [geometry]
  }
}

const at = ([lon, lat]: Position) => `lat="${decimal(lat!)}" lon="${decimal(lon!)}"`
const height = ([, , heightM]: Position) => (heightM === undefined ? '' : `<ele>${decimal(heightM)}</ele>`)

/** xsd:decimal knows no exponent. */
function decimal(value: number): string {
  const text = String(value)
  return text.includes('e') ? value.toFixed(20).replace(/0+$/, '').replace(/\.$/, '') : text
}

function segments(part: Exclude<Part, { type: 'Point' }>): string {
  const lines = part.type === 'Polygon' ? part.coordinates : [part.coordinates]
  return lines
    .map((line) => `<trkseg>${line.map((p) => `<trkpt ${at(p)}>${height(p)}</trkpt>`).join('')}</trkseg>`)
    .join('')
}

/** Name, note and kind where every device looks for them, and all fields for reading back. */
function tell(kind: string, { values }: GivenFeature, shape: 'point' | 'line' | 'area'): string {
  const name = typeof values.name === 'string' ? values.name : null
  const note = typeof values.note === 'string' ? values.note : null
  const own = Object.entries(values)
    .filter(([key]) => /^[A-Za-z_][\w.-]*$/.test(key))
    .map(([key, value]) => `<selion:${key}>${xmlText(String(value))}</selion:${key}>`)
  return [
    textElement('name', name),
    textElement('desc', note),
    textElement('type', kind),
    `<extensions><selion:kind>${kind}</selion:kind><selion:shape>${shape}</selion:shape>${own.join('')}</extensions>`,
  ].join('')
}
