import { existsSync, readdirSync, readFileSync } from 'node:fs'
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { readArchive } from '../../../geo/exchange/readArchive.ts'
import { readGeometry } from '../../../geo/exchange/readGeometry.ts'
import { readZip } from '../../../geo/exchange/readZip.ts'
import { writeArchive } from '../../../geo/exchange/writeArchive.ts'
import { writeZip } from '../../../geo/exchange/writeZip.ts'
import { archiveOf, collection, farmWith, feature, SOUND } from './archiveOf.ts'
import { randomArchive } from './randomArchive.ts'

const ACCEPT = '../shared/accept/farm'
const text = (bytes: Uint8Array | undefined) => new TextDecoder('utf-8', { ignoreBOM: true }).decode(bytes)

describe('writing what was read', () => {
  it('gives the same records, coordinates and properties, on seeded random farms, zipped too', () => {
    fc.assert(
      fc.property(randomArchive, (drawn) => {
        const first = readArchive(archiveOf(drawn))
        expect(first.faults).toEqual([])
        const written = writeArchive(first.content!)
        const again = readArchive(readZip(writeZip(written)).files)
        expect(again.faults).toEqual([])
        expect(again.content).toStrictEqual(first.content)
        expect(writeArchive(again.content!)).toEqual(written)
      }),
      { seed: 1180, numRuns: 120 },
    )
  })
  it('keeps every double of a coordinate, minus zero and heights included', () => {
    const double = fc.double({ min: -0.5, max: 0.5, noNaN: true })
    fc.assert(
      fc.property(fc.array(fc.tuple(double, double, double), { minLength: 2, maxLength: 5 }), (places) => {
        const coordinates = [...places, [0.25, 0.25, 0.25], [-0, 0, -0]]
        const number = (value: number) => (Object.is(value, -0) ? '-0.0' : String(value))
        const shape = `{"type":"LineString","coordinates":[${coordinates.map((p) => `[${p.map(number)}]`)}]}`
        const given = archiveOf({
          'farm.json': { format: 'selion-farm', version: 1, name: 'F', origin: [0, 0] },
          'structures.geojson': `{"type":"FeatureCollection","features":[{"type":"Feature","geometry":${shape},"properties":{"id":"w","kind":"path"}}]}`,
        })
        const { content } = readArchive(given)
        const geom = content!.records.get('structures')![0]!.geom as { coordinates: number[][] }
        expect(geom.coordinates.every((p, i) => p.every((value, k) => Object.is(value, coordinates[i]![k])))).toBe(true)
        expect(readArchive(writeArchive(content!)).content).toStrictEqual(content)
      }),
      { seed: 754, numRuns: 300 },
    )
  })
  it('is the same text for the same farm, one feature a line, CRLF in tables', () => {
    const { content } = readArchive(archiveOf(SOUND))
    const files = writeArchive(content!)
    expect([...files.keys()]).toEqual([
      'farm.json',
      'crops.csv',
      'varieties.csv',
      'containers.csv',
      'systems.csv',
      'system_parts.csv',
      'system_work.csv',
      'fields.geojson',
      'beds.geojson',
      'rows.geojson',
      'trees.geojson',
      'supports.geojson',
      'structures.geojson',
      'observations.geojson',
      'plantings.csv',
      'picks.csv',
      'shares.csv',
      'dressings.csv',
      'stock_lots.csv',
      'stock_moves.csv',
      'photos.json',
      'photos/june.png',
    ])
    expect(text(files.get('varieties.csv'))).toBe('id,crop,name,note\r\nv1,tomato,Early,\r\nv2,leek,Winter,\r\n')
    expect(text(files.get('beds.geojson')).split('\n')).toHaveLength(5)
    expect(text(files.get('rows.geojson'))).toContain('"id":"r2","geometry":{"type":"LineString"')
    expect(text(files.get('rows.geojson'))).toContain('"properties":{"id":"r2","bed":"b2"}')
    expect(text(files.get('crops.csv'))).toContain('tomato,Tomato,Solanaceae,yes,,,')
  })
  it('writes its own columns only where they say something', () => {
    const plain = writeArchive(readArchive(archiveOf(SOUND)).content!)
    expect(text(plain.get('picks.csv')).split('\r\n')[0]).toBe(
      'id,on,planting,bed,lon,lat,quantity,unit,grade,picker,note',
    )
    const changed = farmWith({
      'picks.csv':
        'id,on,bed,quantity,unit,kg_per_unit\nk1,2024-08-01,b1,1,crate,7.25\nk2,2024-08-01,b1,1,crate,\nk3,2024-08-01,b1,1,sack,30\n',
    })
    const { content, faults } = readArchive(changed)
    expect(faults).toEqual([])
    expect(content!.records.get('picks')!.map((pick) => pick.kg_per_unit)).toEqual([7.25, 8, 30])
    expect(text(writeArchive(content!).get('picks.csv')).split('\r\n').slice(0, 4)).toEqual([
      'id,on,planting,bed,lon,lat,quantity,unit,grade,picker,note,kg_per_unit',
      'k1,2024-08-01,,b1,,,1,crate,,,,7.25',
      'k2,2024-08-01,,b1,,,1,crate,,,,',
      'k3,2024-08-01,,b1,,,1,sack,,,,30',
    ])
  })
  it('keeps an origin that was told, and writes none that was only reckoned', () => {
    const told = readArchive(archiveOf(SOUND)).content!
    expect(JSON.parse(text(writeArchive(told).get('farm.json'))).origin).toEqual([8.03, 47.41])
    const untold = readArchive(farmWith({ 'farm.json': { format: 'selion-farm', version: 1, name: 'F' } })).content!
    expect(untold.origin![0]).toBeCloseTo(8.0304, 4)
    expect(JSON.parse(text(writeArchive(untold).get('farm.json'))).origin).toBeUndefined()
  })
  it('refuses a photo name that would leave its folder', () => {
    const { content } = readArchive(archiveOf(SOUND))
    expect(() => writeArchive({ ...content!, photos: new Map([['../x', new Uint8Array()]]) })).toThrow(/"..\/x"/)
  })
})

describe('the weight of a pick', () => {
  it('is filled in from mass units and containers, by the crop where it is known', () => {
    const { content } = readArchive(archiveOf(SOUND))
    expect(content!.records.get('picks')!.map((pick) => pick.kg_per_unit)).toEqual([24.04, 8, 0.45359237])
  })
})

describe('a million corners', () => {
  it('are read in a few seconds, and too many are told', () => {
    const outline = (corners: number) => {
      const ring = Array.from({ length: corners }, (_, i) => {
        const angle = (2 * Math.PI * i) / corners
        return [8.03 + 1e-3 * Math.cos(angle), 47.41 + 1e-3 * Math.sin(angle)]
      })
      return collection(feature('f1', { type: 'Polygon', coordinates: [[...ring, ring[0]]] }, { name: 'Round' }))
    }
    const only = { 'farm.json': SOUND['farm.json']! }
    const large = archiveOf({ ...only, 'fields.geojson': outline(1_000_000) })
    const begun = performance.now()
    const { content, faults } = readArchive(large)
    expect(faults).toEqual([])
    const written = writeArchive(content!)
    expect(performance.now() - begun).toBeLessThan(10_000)
    const again = writeArchive(readArchive(written).content!)
    expect(Buffer.compare(again.get('fields.geojson')!, written.get('fields.geojson')!)).toBe(0)
    const many = { type: 'MultiPoint', coordinates: new Array(2_000_001).fill([8.03, 47.41]) }
    expect(readGeometry(many)).toEqual({ reasons: ['has 2000001 positions; more than 2000000 are not read'] })
  }, 120_000)
})

describe.skipIf(!existsSync(ACCEPT))('the farm of acceptance', () => {
  it('has no faults and keeps every record and coordinate', () => {
    const files = new Map(readdirSync(ACCEPT).map((name) => [name, new Uint8Array(readFileSync(`${ACCEPT}/${name}`))]))
    const { content, faults } = readArchive(files)
    expect(faults).toEqual([])
    const written = writeArchive(content!)
    expect(readArchive(written).content).toStrictEqual(content)
    for (const [path, bytes] of files) {
      if (!path.endsWith('.geojson')) continue
      const coordinates = (one: Uint8Array) =>
        JSON.parse(text(one)).features.map((f: { geometry: object }) => f.geometry)
      expect(coordinates(written.get(path)!)).toEqual(coordinates(bytes))
    }
  })
})
