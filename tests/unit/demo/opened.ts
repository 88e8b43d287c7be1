import { parse } from 'csv-parse/sync'
import type { Feature, FeatureCollection, LineString, Point, Polygon, Position } from 'geojson'
import proj4 from 'proj4'
import { makeDemoRecords } from '../../../fixtures/demo/makeDemo.ts'

/** A line of one of the archive's tables, by its header. */
export type Line = Record<string, string>
export type Shape = Polygon | LineString | Point
export type Placed<G extends Shape> = Feature<G, { id: string } & Record<string, string | number | boolean>>

/** The demo's records as its files tell them: tables read by csv-parse, shapes by JSON. */
export function openDemo(seed = 1) {
  const files = makeDemoRecords(seed)
  const text = (name: string): string => {
    const bytes = files.get(name)
    if (!bytes) throw new Error(`no ${name} in the archive`)
    return new TextDecoder('utf-8', { fatal: true }).decode(bytes)
  }
  const table = (name: string): Line[] => parse(text(name), { columns: true })
  const features = <G extends Shape>(name: string): Placed<G>[] =>
    (JSON.parse(text(name)) as FeatureCollection<G, Placed<G>['properties']>).features
  const farm = JSON.parse(text('farm.json')) as { origin: [number, number] } & Record<string, unknown>
  const [lon, lat] = farm.origin
  const plane = proj4('WGS84', `+proj=tmerc +lat_0=${lat} +lon_0=${lon} +k=1 +x_0=0 +y_0=0 +datum=WGS84 +units=m`)
  const metres = (at: Position): [number, number] => plane.forward([at[0] ?? Number.NaN, at[1] ?? Number.NaN])
  return {
    files,
    farm,
    metres,
    text,
    crops: table('crops.csv'),
    varieties: table('varieties.csv'),
    containers: table('containers.csv'),
    plantings: table('plantings.csv'),
    picks: table('picks.csv'),
    shares: table('shares.csv'),
    systems: table('systems.csv'),
    parts: table('system_parts.csv'),
    work: table('system_work.csv'),
    dressings: table('dressings.csv'),
    lots: table('stock_lots.csv'),
    moves: table('stock_moves.csv'),
    fields: features<Polygon>('fields.geojson'),
    beds: features<Polygon>('beds.geojson'),
    rows: features<LineString>('rows.geojson'),
    trees: features<Point>('trees.geojson'),
    supports: features<LineString>('supports.geojson'),
    structures: features<Shape>('structures.geojson'),
    observations: features<Point>('observations.geojson'),
  }
}
export type OpenedDemo = ReturnType<typeof openDemo>

export const number = (text: string | undefined): number => {
  if (text === undefined || text === '') throw new Error('no number')
  return Number(text)
}

/** Length of a line, in metres of the plane. */
export function lengthM(points: readonly (readonly [number, number])[]): number {
  return points.slice(1).reduce((sum, [x, y], i) => sum + Math.hypot(x - points[i]![0], y - points[i]![1]), 0)
}
