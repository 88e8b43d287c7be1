import { zipSync } from 'fflate'
import type { Geometry, Position } from 'geojson'
import type { FarmContent } from '../archive.ts'
import type { Written } from '../driver.ts'
import { type GivenFeature, type GivenLayer, givenLayers } from '../layers/givenLayers.ts'
import { rightHanded } from '../rightHanded.ts'
import { textElement, xmlText } from '../xml/xmlText.ts'

/** A farm as KML 2.2 (which readers of 2.3 read): a folder a kind, its fields as extended data. */
export function writeKml(content: FarmContent): Written {
  const layers = givenLayers(content)
  const text = [
    '<?xml version="1.0" encoding="UTF-8"?>',
    '<kml xmlns="http://www.opengis.net/kml/2.2"><Document>',
    textElement('name', content.farm.name),
    ...layers.map(folderText),
    '</Document></kml>\n',
  ].join('\n')
  return { bytes: new TextEncoder().encode(text), notes: [] }
}

/** The same, packed with no clock in it. */
export function writeKmz(content: FarmContent): Written {
  const { bytes, notes } = writeKml(content)
  return { bytes: zipSync({ 'doc.kml': [bytes, { mtime: new Date(1980, 0, 1) }] }), notes }
}

function folderText({ kind, features }: GivenLayer): string {
  return [`<Folder><name>${kind.name}</name>`, ...features.map((one) => placemarkText(one)), '</Folder>'].join('\n')
}

function placemarkText({ geometry, values }: GivenFeature): string {
  const data = Object.entries(values).map(
    ([name, value]) => `<Data name="${xmlText(name)}"><value>${xmlText(String(value))}</value></Data>`,
  )
  return [
    '<Placemark>',
    textElement('name', typeof values.name === 'string' ? values.name : null),
    `<ExtendedData>${data.join('')}</ExtendedData>`,
    geometryText(rightHanded(geometry)),
    '</Placemark>',
  ].join('')
}

function geometryText(geometry: Geometry): string {
  switch (geometry.type) {
    case 'Point':
      return `<Point>${coordinatesText([geometry.coordinates])}</Point>`
    case 'LineString':
      return `<LineString>${coordinatesText(geometry.coordinates)}</LineString>`
    case 'Polygon':
      return `<Polygon>${geometry.coordinates.map(ringText).join('')}</Polygon>`
    case 'MultiPoint':
      return multiText(geometry.coordinates.map((coordinates) => ({ type: 'Point', coordinates })))
    case 'MultiLineString':
      return multiText(geometry.coordinates.map((coordinates) => ({ type: 'LineString', coordinates })))
    case 'MultiPolygon':
      return multiText(geometry.coordinates.map((coordinates) => ({ type: 'Polygon', coordinates })))
    case 'GeometryCollection':
      return multiText(geometry.geometries)
  }
}

const multiText = (parts: readonly Geometry[]) => `<MultiGeometry>${parts.map(geometryText).join('')}</MultiGeometry>`

function ringText(ring: readonly Position[], i: number): string {
  const side = i === 0 ? 'outerBoundaryIs' : 'innerBoundaryIs'
  return `<${side}><LinearRing>${coordinatesText(ring)}</LinearRing></${side}>`
}

const coordinatesText = (positions: readonly Position[]) =>
  `<coordinates>${positions.map((p) => p.join(',')).join(' ')}</coordinates>`
