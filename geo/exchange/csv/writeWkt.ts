import type { Geometry, Position } from 'geojson'

/** A geometry as well-known text (OGC 06-103r4 §7), every number as the shortest text that reads back the same. */
export function writeWkt(geometry: Geometry): string {
  const z = hasHeights(geometry) ? ' Z' : ''
  if (geometry.type === 'GeometryCollection')
    return `GEOMETRYCOLLECTION${z} (${geometry.geometries.map(writeWkt).join(', ')})`
  return `${geometry.type.toUpperCase()}${z} ${bodyText(geometry)}`
}

const positionText = (p: Position) => p.join(' ')
const lineText = (line: readonly Position[]) => `(${line.map(positionText).join(', ')})`
const ringsText = (rings: readonly Position[][]) => `(${rings.map(lineText).join(', ')})`

function bodyText(geometry: Exclude<Geometry, { type: 'GeometryCollection' }>): string {
  switch (geometry.type) {
    case 'Point':
      return lineText([geometry.coordinates])
    case 'MultiPoint':
      return `(${geometry.coordinates.map((p) => lineText([p])).join(', ')})`
    case 'LineString':
      return lineText(geometry.coordinates)
    case 'MultiLineString':
    case 'Polygon':
      return ringsText(geometry.coordinates)
    case 'MultiPolygon':
      return `(${geometry.coordinates.map(ringsText).join(', ')})`
  }
}

function hasHeights(geometry: Geometry): boolean {
  if (geometry.type === 'GeometryCollection') return geometry.geometries.some(hasHeights)
  let inner: unknown = geometry.coordinates
  while (Array.isArray(inner) && Array.isArray(inner[0])) inner = inner[0]
  return (inner as unknown[]).length > 2
}
