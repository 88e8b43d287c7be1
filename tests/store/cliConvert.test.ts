import { createHash } from 'node:crypto'
import { readFile } from 'node:fs/promises'
import { join } from 'node:path'
import { unzipSync } from 'fflate'
import type { Feature, FeatureCollection } from 'geojson'
import { beforeAll, expect, it } from 'vitest'
import { farmWith } from '../unit/exchange/archiveOf.ts'
import { filesIn, jsonOf, selion, useFolder, writeFiles } from './cliRun.ts'

const folder = useFolder()
const demo = () => folder('demo')

const convert = async (from: string, to: string, ...more: string[]) => {
  expect(await selion('convert', from, to, ...more)).toMatchObject({ code: 0, error: '' })
}
/** What each file holds: JSON by its value (null is not known, as absent is), anything else by a digest of its bytes. */
const held = (files: ReadonlyMap<string, Uint8Array>) =>
  new Map(
    [...files].sort().map(([name, bytes]) => {
      if (/json$/.test(name))
        return [name, JSON.parse(Buffer.from(bytes).toString(), (_, value) => value ?? undefined) as unknown]
      return [name, digest(bytes)]
    }),
  )
const digest = (bytes: Uint8Array) => createHash('sha256').update(bytes).digest('hex')
const digests = (files: ReadonlyMap<string, Uint8Array>) =>
  new Map([...files].sort().map(([name, bytes]) => [name, digest(bytes)]))
const features = (bytes: Buffer) => (JSON.parse(bytes.toString()) as FeatureCollection).features

beforeAll(async () => {
  expect((await selion('demo', demo())).code).toBe(0)
})

it('takes an archive from folder to zip and back, record for record, and to the byte once it is of its own writing', async () => {
  await convert(demo(), folder('demo.zip'))
  await convert(folder('demo.zip'), folder('back'))
  await convert(folder('back'), folder('again.zip'))
  // Read by fflate alone, not by the archive's own reading of zips.
  const zipped = async (name: string) => new Map(Object.entries(unzipSync(await readFile(folder(name)))))
  const back = await filesIn(folder('back'))
  expect(held(back)).toEqual(held(await filesIn(demo())))
  expect(digests(await zipped('demo.zip'))).toEqual(digests(back))
  expect(digests(await zipped('again.zip'))).toEqual(digests(back))
})

it('keeps every cell, property and coordinate of an archive written by hand', async () => {
  const rows = 'id,on,planting,bed,quantity,unit,weather,note\nk1,2024-08-01,p1,,2,bushel,"hot, dry","said ""ripe"""\n'
  const files = farmWith({ 'picks.csv': rows, 'shares.csv': null })
  await writeFiles(folder('hand'), files)
  await convert(folder('hand'), folder('hand.zip'))
  await convert(folder('hand.zip'), folder('hand-back'))
  const back = await filesIn(folder('hand-back'))
  expect(back.get('picks.csv')!.toString()).toContain('"hot, dry"')
  expect(back.get('picks.csv')!.toString()).toContain('"said ""ripe"""')
  for (const [name, bytes] of files) {
    if (!name.endsWith('.geojson')) continue
    const given = features(Buffer.from(bytes))
    features(back.get(name)!).forEach((feature, i) => {
      expect(feature.geometry).toEqual(given[i]!.geometry)
      expect(feature.properties).toMatchObject(given[i]!.properties!)
    })
  }
})

it('gives shapes out as GeoJSON and takes them in again with their ids and coordinates', async () => {
  await convert(demo(), folder('demo.geojson'))
  const out = features(await readFile(folder('demo.geojson')))
  const kinds = ['fields', 'beds', 'rows', 'trees']
  const ofKind = (kind: string): Feature[] => out.filter((feature) => feature.properties!.kind === kind)
  for (const kind of kinds) {
    const given = features(await readFile(join(demo(), `${kind}.geojson`)))
    expect(ofKind(kind).map((feature) => feature.properties!.id)).toEqual(given.map((one) => one.properties!.id))
  }
  const { code, error } = await selion('convert', folder('demo.geojson'), folder('from-geojson'))
  expect(code).toBe(0)
  // Systems are not shapes: the runs name them, so each is made by its name and that is told.
  expect(error).toMatch(/system/)
  for (const kind of kinds) {
    const given = features(await readFile(join(demo(), `${kind}.geojson`)))
    const back = features(await readFile(join(folder('from-geojson'), `${kind}.geojson`)))
    expect(back.map((one) => [one.properties, one.geometry])).toEqual(
      given.map((one) => [one.properties, one.geometry]),
    )
  }
  const told = await jsonOf<{ faults: unknown[] }>(selion('check', folder('from-geojson'), '--json'))
  expect(told.faults).toEqual([])
})

it('takes shapes from other programs, telling beds and rows by what they refer to', async () => {
  const square = (e: number, n: number, m: number) => {
    const at = (x: number, y: number) => [8 + x / 75_000, 47 + y / 111_200]
    return { type: 'Polygon', coordinates: [[at(e, n), at(e, n + m), at(e + m, n + m), at(e + m, n), at(e, n)]] }
  }
  const collection = {
    type: 'FeatureCollection',
    features: [
      { type: 'Feature', id: 7, geometry: square(0, 0, 50), properties: { name: 'Lower', colour: 'green' } },
      { type: 'Feature', geometry: square(5, 5, 10), properties: { id: 'b', name: 'B', field: '7' } },
      { type: 'Feature', geometry: { type: 'Point', coordinates: [8, 47] }, properties: { species: 'Juglans nigra' } },
      { type: 'Feature', geometry: { type: 'Point', coordinates: [8, 47] }, properties: {} },
    ],
  }
  await writeFiles(folder(''), new Map([['other.geojson', Buffer.from(JSON.stringify(collection))]]))
  const { code, out, error } = await selion('convert', folder('other.geojson'), folder('other'))
  expect(code).toBe(0)
  expect(out).not.toBe('')
  expect(error).toMatch(/feature 4, kind: is left out/)
  const measured = await jsonOf<{ fields: { id: string; name: string; bed_count: number }[] }>(
    selion('measure', folder('other'), '--json'),
  )
  expect(measured.fields).toMatchObject([{ id: '7', name: 'Lower', bed_count: 1 }])
  expect(features(await readFile(join(folder('other'), 'fields.geojson')))[0]!.properties).toMatchObject({
    colour: 'green',
  })
})

it('writes over an archive that stands there where told to, and over nothing else', async () => {
  await writeFiles(folder('hand-2'), farmWith({}))
  await writeFiles(folder('taken'), new Map([...farmWith({}), ['mine.txt', Buffer.from('mine')]]))
  await convert(folder('hand-2'), folder('taken'), '--replace')
  expect((await filesIn(folder('taken'))).get('mine.txt')!.toString()).toBe('mine')
  await writeFiles(folder('letters'), new Map([['mine.txt', Buffer.from('mine')]]))
  for (const more of [[], ['--replace']])
    expect(await selion('convert', folder('hand-2'), folder('letters'), ...more)).toMatchObject({ code: 2, out: '' })
  expect([...(await filesIn(folder('letters'))).keys()]).toEqual(['mine.txt'])
})

it('leaves a farm that stands in OUT as it is, folder, zip or file, unless told to replace it', async () => {
  await writeFiles(folder('from'), farmWith({ 'shares.csv': null }))
  await writeFiles(folder('own'), farmWith({}))
  await convert(folder('own'), folder('own.zip'))
  await convert(folder('own'), folder('own.geojson'))
  const before = digests(await filesIn(folder('own')))
  const files = ['own.zip', 'own.geojson']
  const bytes = async () => Promise.all(files.map(async (name) => digest(await readFile(folder(name)))))
  const filesBefore = await bytes()
  for (const words of [
    ['convert', folder('from'), folder('own')],
    ['convert', folder('from'), folder('own.zip')],
    ['convert', folder('from'), folder('own.geojson')],
    ['demo', folder('own')],
  ])
    expect(await selion(...words)).toMatchObject({ code: 2, out: '', error: expect.stringMatching(/--replace would/) })
  expect(digests(await filesIn(folder('own')))).toEqual(before)
  expect(await bytes()).toEqual(filesBefore)
  await convert(folder('from'), folder('own.zip'), '--replace')
  expect(Object.keys(unzipSync(await readFile(folder('own.zip'))))).not.toContain('shares.csv')
  expect(await selion('demo', folder('own'), '--replace')).toMatchObject({ code: 0, error: '' })
  expect(digests(await filesIn(folder('own')))).toEqual(digests(await filesIn(demo())))
})

it('ends with 1 and writes nothing where nothing of a file can be kept, --replace or not', async () => {
  await writeFiles(folder('kept'), farmWith({}))
  const before = digests(await filesIn(folder('kept')))
  const here = { type: 'Point', coordinates: [8, 47] }
  const nothing = { type: 'FeatureCollection', features: [{ type: 'Feature', geometry: here, properties: {} }] }
  const empty = { type: 'FeatureCollection', features: [] }
  for (const [collection, ...words] of [
    [nothing, folder('kept'), '--replace'],
    [nothing, folder('nothing.zip')],
    [empty, folder('nothing')],
  ] as const) {
    await writeFiles(folder(''), new Map([['lost.geojson', Buffer.from(JSON.stringify(collection))]]))
    const { code, out, error } = await selion('convert', folder('lost.geojson'), ...words)
    expect({ code, out }).toEqual({ code: 1, out: '' })
    expect(error).toMatch(/lost\.geojson: holds nothing that can be kept, so nothing is written/)
  }
  expect(digests(await filesIn(folder('kept')))).toEqual(before)
  await expect(readFile(folder('nothing.zip'))).rejects.toThrow(/ENOENT/)
  await expect(filesIn(folder('nothing'))).rejects.toThrow(/ENOENT/)
})
