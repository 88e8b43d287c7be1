import { parse } from 'csv-parse/sync'
import fc from 'fast-check'
import type { Geometry, Position } from 'geojson'
import { HERE } from './archiveOf.ts'

/** Random farms that are sound: every kind of record, any text, numbers and properties that the format does not know. */
export interface Drawn {
  readonly [file: string]: object | string
}

const any = fc.string({ unit: 'grapheme', minLength: 1, maxLength: 12 }).filter((text) => !text.includes('\0'))
const awkward = fc.constantFrom(
  'a,b',
  'say "ah"',
  ' lead',
  'two\nlines',
  'two\r\nlines',
  'bare\rreturn',
  '=1+1',
  "l'été",
  '🌱',
  '\u0085',
  '"',
)
const text = fc.oneof(any, awkward).map((one) => one.toWellFormed())
const maybe = <T>(one: fc.Arbitrary<T>) => fc.option(one, { nil: null, freq: 2 })
const positive = fc.double({ min: 1e-6, max: 1e6, noNaN: true, minExcluded: true })
const day = fc
  .date({ min: new Date('1900-01-01'), max: new Date('2100-12-31'), noInvalidDate: true })
  .map((date) => date.toISOString().slice(0, 10))
const json = fc.jsonValue({ maxDepth: 3, noUnicodeString: false }).map(keepable)
const extras = fc.dictionary(
  text.map((name) => `own ${name}`),
  json,
  { maxKeys: 3 },
)
const cells = fc.dictionary(
  text.map((name) => `own ${name}`),
  text,
  { maxKeys: 2 },
)

/** JSON as a database keeps it: no NUL, no halves of surrogate pairs, no minus zero. */
function keepable(value: unknown): unknown {
  return JSON.parse(
    JSON.stringify(value, (_, one) => (typeof one === 'string' ? clean(one) : one)),
    (_, one) =>
      typeof one === 'object' && one !== null && !Array.isArray(one)
        ? Object.fromEntries(Object.entries(one).map(([name, inner]) => [clean(name), inner]))
        : one,
  )
}
const clean = (one: string) => one.replaceAll('\0', '').toWellFormed()

const degree = fc.double({ min: -1e-3, max: 1e-3, noNaN: true })
const flat = fc.tuple(degree, degree).map(([x, y]): Position => [HERE[0] + x, HERE[1] + y])
const high = fc
  .tuple(degree, degree, fc.double({ min: -100, max: 9000, noNaN: true }))
  .map(([x, y, z]): Position => [HERE[0] + x, HERE[1] + y, z])
const point = fc.oneof(flat, high).map((coordinates): Geometry => ({ type: 'Point', coordinates }))

const flatPoint = flat.map((coordinates): Geometry => ({ type: 'Point', coordinates }))

/** A ring about the place with any number of corners, either way round. */
const ring = fc
  .record({
    radii: fc.array(fc.integer({ min: 50, max: 100 }), { minLength: 3, maxLength: 9 }),
    scale: fc.double({ min: 1e-7, max: 1e-5, noNaN: true }),
    back: fc.boolean(),
  })
  .map(({ radii, scale, back }): Position[] => {
    const places = radii.map((radius, i): Position => {
      const angle = (2 * Math.PI * i) / radii.length
      return [HERE[0] + scale * radius * Math.cos(angle), HERE[1] + scale * radius * Math.sin(angle)]
    })
    const closed = [...places, [...places[0]!]]
    return back ? closed.reverse() : closed
  })
const polygon = ring.map((one): Geometry => ({ type: 'Polygon', coordinates: [one] }))
const line = fc
  .uniqueArray(flat, { minLength: 2, maxLength: 6, selector: (p) => p.join() })
  .map((coordinates): Geometry => ({ type: 'LineString', coordinates }))
const anything = fc.oneof(
  point,
  line,
  polygon,
  fc.array(flat, { minLength: 1, maxLength: 3 }).map((coordinates): Geometry => ({ type: 'MultiPoint', coordinates })),
  fc.tuple(flatPoint, line).map((geometries): Geometry => ({ type: 'GeometryCollection', geometries })),
)

const features = (geometry: fc.Arbitrary<Geometry>, properties: Record<string, fc.Arbitrary<unknown>>, least: number) =>
  fc
    .uniqueArray(fc.record({ id: text, geometry, told: fc.record(properties), extra: extras }), {
      minLength: least,
      maxLength: 4,
      selector: (one) => one.id,
    })
    .map((list) => ({
      type: 'FeatureCollection',
      features: list.map(({ id, geometry: shape, told, extra }) => ({
        type: 'Feature',
        geometry: shape,
        properties: { ...extra, ...told, id },
      })),
    }))

const quoted = (cell: unknown) =>
  /[",\r\n]/.test(String(cell)) ? `"${String(cell).replaceAll('"', '""')}"` : String(cell)
const table = (columns: Record<string, fc.Arbitrary<unknown>>, least: number, hasId = true) =>
  fc
    .tuple(
      fc.uniqueArray(text, { minLength: least, maxLength: 4 }),
      fc.infiniteStream(fc.record(columns)),
      fc.infiniteStream(cells),
    )
    .map(([ids, told, own]) => {
      const lines = ids.map(
        (id) => ({ ...(hasId ? { id } : {}), ...told.next().value!, ...own.next().value! }) as Record<string, unknown>,
      )
      const names = [
        ...new Set([...(hasId ? ['id'] : []), ...Object.keys(columns), ...lines.flatMap((one) => Object.keys(one))]),
      ]
      return [names, ...lines.map((one) => names.map((name) => one[name] ?? ''))]
        .map((row) => row.map(quoted).join(','))
        .join('\n')
    })

const yes = fc.constantFrom('yes', 'no')

/** Files of a random sound archive. Relations are to the first record of the kind referred to, which is always there. */
export const randomArchive: fc.Arbitrary<Drawn> = fc
  .record({
    'farm.json': fc
      .record({
        name: text,
        currency: maybe(text),
        units: fc.constantFrom('metric', 'us'),
        seasonStartMonth: fc.integer({ min: 1, max: 12 }),
        extra: extras,
      })
      .map(({ extra, ...told }) => ({ ...extra, format: 'selion-farm', version: 1, origin: HERE, ...told })),
    'fields.geojson': features(polygon, { name: text, note: maybe(text) }, 1),
    'trees.geojson': features(
      point,
      {
        species: text,
        height_m: maybe(positive),
        planted: maybe(day),
        juglone: maybe(fc.constantFrom('source', 'none')),
      },
      0,
    ),
    'structures.geojson': features(anything, { kind: text, name: maybe(text) }, 0),
    'observations.geojson': features(
      point,
      { on: day, kind: text, severity: maybe(fc.integer({ min: 1, max: 5 })) },
      0,
    ),
    'crops.csv': table({ name: text, family: text, climbs: maybe(yes), return_years: maybe(positive) }, 1),
    'systems.csv': table({ name: text, note: maybe(text) }, 1),
    beds: fc.array(fc.record({ geometry: polygon, name: text, extra: extras }), { minLength: 1, maxLength: 3 }),
    lines: fc.array(line, { minLength: 1, maxLength: 3 }),
    picks: fc.array(
      fc.record({
        quantity: positive,
        grade: maybe(text),
        on: day,
        spot: flat,
        where: fc.constantFrom('planting', 'bed', 'spot'),
      }),
      { maxLength: 4 },
    ),
    stretch: fc.tuple(fc.double({ min: 0, max: 1, noNaN: true }), fc.double({ min: 1e-9, max: 1, noNaN: true })),
    variety: text,
    kg: positive,
  })
  .map(({ beds, lines, picks, stretch, variety, kg, ...files }) => {
    const field = (files['fields.geojson'].features[0]!.properties as { id: string }).id
    const crop = firstCell(files['crops.csv'])
    const system = firstCell(files['systems.csv'])
    const accepted = { outside_accepted: true }
    return {
      ...files,
      'beds.geojson': {
        type: 'FeatureCollection',
        features: beds.map((bed, i) => ({
          type: 'Feature',
          id: i,
          geometry: bed.geometry,
          properties: { ...bed.extra, field, name: bed.name, ...accepted },
        })),
      },
      'rows.geojson': {
        type: 'FeatureCollection',
        features: lines.map((geometry, i) => ({
          type: 'Feature',
          geometry,
          properties: { id: `r${i}`, bed: '0', ...accepted },
        })),
      },
      'supports.geojson': {
        type: 'FeatureCollection',
        features: lines.map((geometry, i) => ({
          type: 'Feature',
          geometry,
          properties: { id: `s${i}`, system, permanent: i > 0 },
        })),
      },
      'varieties.csv': `id,crop,name\r\nv1,${quoted(crop)},${quoted(variety)}\r\n`,
      'containers.csv': `unit,kg,crop\ncrate,${kg},\ncrate,${kg * 1.1},${quoted(crop)}\n`,
      'plantings.csv': `id,bed,variety,from_m,to_m,set_out\np1,0,v1,${stretch[0]},${stretch[0] + stretch[1]},2024-02-29\n`,
      'picks.csv': [
        'id,on,planting,bed,lon,lat,quantity,unit,grade',
        ...picks.map((pick, i) => pickLine(pick, i)),
      ].join('\n'),
    }
  })

interface DrawnPick {
  readonly quantity: number
  readonly grade: string | null
  readonly on: string
  readonly spot: Position
  readonly where: 'planting' | 'bed' | 'spot'
}

function pickLine({ quantity, grade, on, spot, where }: DrawnPick, i: number): string {
  const place = { planting: ['p1', '', '', ''], bed: ['', '0', '', ''], spot: ['', '', spot[0], spot[1]] }[where]
  return [`k${i}`, on, ...place, quantity, 'crate', grade ?? ''].map(quoted).join(',')
}

/** The first id of a table. */
function firstCell(csv: string): string {
  const rows: string[][] = parse(csv, { record_delimiter: '\n' })
  return rows[1]![0]!
}
