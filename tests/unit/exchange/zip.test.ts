import { deflateRawSync, crc32 as nodeCrc32 } from 'node:zlib'
import fc from 'fast-check'
import { strToU8, unzipSync, type Zippable, zipSync } from 'fflate'
import { describe, expect, it } from 'vitest'
import { crc32 } from '../../../geo/exchange/crc32.ts'
import { readOpened } from '../../../geo/exchange/readArchive.ts'
import { readArchiveZip } from '../../../geo/exchange/readArchiveZip.ts'
import { readZip } from '../../../geo/exchange/readZip.ts'
import { tellIgnored } from '../../../geo/exchange/tellIgnored.ts'
import { writeZip } from '../../../geo/exchange/writeZip.ts'
import { archiveOf, SOUND } from './archiveOf.ts'

const readZipped = (zip: Uint8Array) => readOpened(readArchiveZip(zip, 'farm.zip'))
const UNIX_LINK = 0o120777 << 16
const zipOf = (files: Zippable) => zipSync(files)
const told = (zip: Uint8Array) => readZip(zip).faults.map((fault) => `${fault.file}: ${fault.reason}`)

/** The zip with one number of the central entry of a file put otherwise (APPNOTE §4.3.12 offsets). */
function patched(zip: Uint8Array, path: string, offset: number, value: number, bytes: 2 | 4) {
  const copy = zip.slice()
  const view = new DataView(copy.buffer)
  for (let at = 0; at + 46 <= copy.length; at++) {
    if (view.getUint32(at, true) !== 0x02014b50) continue
    const name = new TextDecoder().decode(copy.subarray(at + 46, at + 46 + view.getUint16(at + 28, true)))
    if (name !== path) continue
    if (bytes === 2) view.setUint16(at + offset, value, true)
    else view.setUint32(at + offset, value, true)
    return copy
  }
  throw new Error(`no central entry of ${path}`)
}

describe('a zip', () => {
  it('gives the files that were put in, and the same bytes each time', () => {
    const files = archiveOf(SOUND)
    const zip = writeZip(files)
    expect(readZip(zip)).toEqual({ files, faults: [] })
    expect(writeZip(files)).toEqual(zip)
  })
  it('is read by another reader too, with photos stored and text packed', () => {
    // X: fflate's own unzip.
    const files = archiveOf(SOUND)
    const seen = new Map<string, number>()
    const theirs = unzipSync(writeZip(files), { filter: (file) => seen.set(file.name, file.compression) !== undefined })
    expect(new Map(Object.entries(theirs))).toEqual(files)
    expect(seen.get('photos/june.png')).toBe(0)
    expect(seen.get('beds.geojson')).toBe(8)
  })
  it('holds any bytes', () => {
    fc.assert(
      fc.property(
        fc.dictionary(fc.stringMatching(/^[a-z]{1,8}\.csv$/), fc.uint8Array({ maxLength: 3000 }), { maxKeys: 5 }),
        (given) => {
          const files = new Map(Object.entries(given).map(([path, bytes]) => [path, new Uint8Array(bytes)]))
          expect(readZip(writeZip(files))).toEqual({ files, faults: [] })
        },
      ),
      { seed: 50, numRuns: 200 },
    )
  })
  it('has the checksum that zlib reckons', () => {
    fc.assert(
      fc.property(fc.uint8Array({ maxLength: 500 }), (bytes) => {
        expect(crc32(bytes)).toBe(nodeCrc32(bytes))
      }),
    )
    // The check value of CRC-32/ISO-HDLC (C2).
    expect(crc32(strToU8('123456789'))).toBe(0xcbf43926)
  })
  it('may hold folders, hidden files and what systems add, which are passed over', () => {
    const zip = zipOf({
      'farm/': new Uint8Array(),
      'farm/farm.json': strToU8('{}'),
      'farm/.DS_Store': strToU8('x'),
      '__MACOSX/farm/._farm.json': strToU8('x'),
      'farm/Thumbs.db': strToU8('x'),
    })
    expect([...readZip(zip).files.keys()]).toEqual(['farm/farm.json'])
    expect(told(zip)).toEqual([])
  })
})

describe('a hostile zip', () => {
  const csv = strToU8('id,name\ny1,Post\n'.repeat(50))
  const plain = zipOf({ 'systems.csv': csv })
  it.each([
    ['../systems.csv', /leads out of the archive/],
    ['photos/../../systems.csv', /leads out of the archive/],
    ['/etc/systems.csv', /root of a disk/],
    ['C:/systems.csv', /root of a disk/],
    ['..\\systems.csv', /backslash/],
    ['a\nb.csv', /path that is none/],
  ])('with the path %j', (path, reason) => {
    const zip = zipOf({ [path]: csv, 'crops.csv': csv })
    expect([...readZip(zip).files.keys()]).toEqual(['crops.csv'])
    expect(readZip(zip).faults).toEqual([{ file: path, record: '', field: '', reason: expect.stringMatching(reason) }])
  })
  it('with a link', () => {
    const zip = zipOf({ 'farm.json': [strToU8('/etc/passwd'), { os: 3, attrs: UNIX_LINK }] })
    expect(told(zip)).toEqual(['farm.json: is a link, which is not followed'])
  })
  it('with two files of one name, by any case', () => {
    expect(told(zipOf({ 'systems.csv': csv, 'Systems.csv': csv }))).toEqual(['Systems.csv: stands twice in the zip'])
  })
  it('with a locked file', () => {
    expect(told(patched(plain, 'systems.csv', 8, 1, 2))).toEqual(['systems.csv: is locked with a password'])
  })
  it('with a file packed otherwise', () => {
    expect(told(patched(plain, 'systems.csv', 10, 12, 2))).toEqual([
      'systems.csv: is packed by method 12, which is not read here',
    ])
  })
  it('with a damaged file', () => {
    const bytes = plain.slice()
    bytes[45] = bytes[45]! ^ 0xff
    expect(told(bytes)).toEqual([expect.stringMatching(/^systems.csv: (is damaged|unpacks to more)/)])
    expect(told(patched(plain, 'systems.csv', 16, 12345, 4))).toEqual([
      'systems.csv: is damaged: its bytes are not those that were packed',
    ])
  })
  it('cut short, or none at all', () => {
    expect(told(plain.slice(0, -10))).toEqual([': is not a zip, or is cut short'])
    expect(told(plain.slice(0, 40))).toEqual([': is not a zip, or is cut short'])
    expect(told(new Uint8Array())).toEqual([': is not a zip, or is cut short'])
    expect(told(strToU8('{"type":"FeatureCollection","features":[]}'))).toEqual([': is not a zip, or is cut short'])
  })
  it('whose file is longer than told', () => {
    expect(told(patched(plain, 'systems.csv', 24, 10, 4))).toEqual([
      'systems.csv: unpacks to more bytes than the zip tells',
    ])
    expect(told(patched(plain, 'systems.csv', 24, csv.length + 1, 4))).toEqual([
      'systems.csv: is damaged: its bytes are not those that were packed',
    ])
  })
  it('that is a bomb by growth is not unpacked', () => {
    const zeros = zipOf({ 'picks.csv': new Uint8Array(65 * 1024 ** 2) })
    expect(zeros.length).toBeLessThan(100_000)
    expect(told(zeros)).toEqual(['picks.csv: grows more than 200 times when unpacked, as only a bomb does'])
  })
  it('that is a bomb by sum is not unpacked', () => {
    const many = Object.fromEntries(Array.from({ length: 30 }, (_, i) => [`f${i}.csv`, csv]))
    let zip: Uint8Array = zipOf(many)
    for (const path of Object.keys(many)) zip = patched(zip, path, 24, 60 * 1024 ** 2, 4)
    const begun = performance.now()
    const { files, faults } = readZip(zip)
    expect(files.size).toBe(0)
    expect(faults.at(-1)!.reason).toBe('brings the unpacked files above 1 GiB')
    expect(performance.now() - begun).toBeLessThan(5000)
  })
  it('that is a bomb in pieces is seen before anything is unpacked', () => {
    const zeros = new Uint8Array(10 * 1024 ** 2)
    const pieces = (n: number) => Object.fromEntries(Array.from({ length: n }, (_, i) => [`photos/${i}.tif`, zeros]))
    const small = zipOf({ 'crops.csv': csv, ...pieces(6) })
    expect(readZip(small).files.size).toBe(7)
    const { files, faults } = readZip(zipOf({ 'crops.csv': csv, ...pieces(7) }))
    expect(files.size).toBe(0)
    expect(faults.map(({ reason }) => reason)).toEqual(['grows more than 200 times when unpacked, as only a bomb does'])
  })
  it('in an archive, with what no archive has, is not unpacked, and does not count', () => {
    const zip = zipOf({ ...Object.fromEntries(archiveOf(SOUND)), 'big.bin': new Uint8Array(65 * 1024 ** 2) })
    const { files, faults, ignored } = readArchiveZip(zip, 'farm.zip')
    expect([files.size, faults, ignored]).toEqual([Object.keys(SOUND).length, [], ['big.bin']])
  })
  it('whose files share their bytes', () => {
    // As in D. Fifield's bombs: two central entries of one local file.
    const two = zipOf({ 'a.csv': csv, 'b.csv': csv })
    expect(told(patched(two, 'b.csv', 42, 0, 4))).toEqual([
      'b.csv: shares its bytes with another file of the zip, as only a bomb does',
    ])
  })
  it('with more files than any farm', () => {
    const many = Object.fromEntries(Array.from({ length: 10_001 }, (_, i) => [`${i}.csv`, new Uint8Array()]))
    expect(told(zipOf(many))).toEqual([': holds more than 10000 files'])
  })
  it('never throws, whatever its bytes', () => {
    const sound = writeZip(archiveOf(SOUND))
    fc.assert(
      fc.property(
        fc.array(fc.tuple(fc.nat(sound.length - 1), fc.integer({ min: 0, max: 255 })), { minLength: 1, maxLength: 8 }),
        (changes) => {
          const bytes = sound.slice()
          for (const [at, value] of changes) bytes[at] = value
          const { files, faults } = readZip(bytes)
          expect(files.size + faults.length).toBeGreaterThan(0)
        },
      ),
      { seed: 6, numRuns: 400 },
    )
  })
})

describe('a zipped archive', () => {
  it('tells the faults of the zip before those of its files', () => {
    const files = Object.fromEntries(archiveOf({ ...SOUND, 'systems.csv': 'id,name\ny1,\n' }))
    const reading = readZipped(zipOf({ ...files, '../evil.csv': strToU8('x') }))
    expect(reading.faults.map((fault) => [fault.file, fault.field])).toEqual([
      ['../evil.csv', ''],
      ['systems.csv', 'name'],
    ])
    expect(reading.content!.records.has('supports')).toBe(false)
    expect(reading.leftOut[0]).toEqual(reading.faults[0])
    expect(reading.leftOut.map(({ file }) => file)).toContain('systems.csv')
  })
  it('that is none gives that one fault', () => {
    expect(readZipped(strToU8('no zip')).faults).toEqual([
      { file: 'farm.zip', record: '', field: '', reason: 'is not a zip, or is cut short' },
    ])
  })
  it('tells files that it does not read, hidden ones too, but not those that systems add', () => {
    const files = Object.fromEntries(archiveOf({ ...SOUND, 'picks.csv': null, 'shares.csv': null }))
    const others = ['pick.csv', 'Weather.csv', 'maps/soil.tif', 'photos/.hid.jpg', 'photos/sub/x.jpg', 'Photos/y.jpg']
    const extra = Object.fromEntries(others.map((path) => [path, strToU8('x')]))
    const inFolder = Object.entries({ ...files, ...extra, '.DS_Store': strToU8('x') })
    const byHand = zipOf({
      ...Object.fromEntries(inFolder.map(([path, bytes]) => [`farm/${path}`, bytes])),
      '__MACOSX/farm/._farm.json': strToU8('x'),
    })
    const reading = readZipped(byHand)
    expect(reading.faults).toEqual([])
    expect(tellIgnored(reading)).toEqual([
      { file: 'pick.csv', meant: 'picks.csv' },
      { file: 'Weather.csv', meant: null },
      { file: 'maps/soil.tif', meant: null },
      { file: 'photos/.hid.jpg', meant: null },
      { file: 'photos/sub/x.jpg', meant: null },
      { file: 'Photos/y.jpg', meant: 'photos/y.jpg' },
    ])
  })
  it('in zip64 is read', () => {
    // Written by hand after APPNOTE §4.5.3: sizes and offset in the zip64 field, all ones in the plain ones.
    expect(readZip(zip64Of('farm.json', strToU8('{"a": 1}'))).files).toEqual(
      new Map([['farm.json', strToU8('{"a": 1}')]]),
    )
  })
})

function zip64Of(path: string, content: Uint8Array): Uint8Array {
  const name = strToU8(path)
  const packed = deflateRawSync(content)
  const bytes: number[] = []
  const put = (size: 2 | 4 | 8, ...values: number[]) => {
    for (const value of values)
      for (let i = 0; i < size; i++) bytes.push(Number((BigInt(value) >> BigInt(8 * i)) & 0xffn))
  }
  const ones = 0xffffffff
  put(4, 0x04034b50)
  put(2, 45, 0, 8, 0, 0)
  put(4, crc32(content), packed.length, content.length)
  put(2, name.length, 0)
  bytes.push(...name, ...packed)
  const central = bytes.length
  put(4, 0x02014b50)
  put(2, 45, 45, 0, 8, 0, 0)
  put(4, crc32(content), ones, ones)
  put(2, name.length, 28, 0, 0, 0)
  put(4, 0, ones)
  bytes.push(...name)
  put(2, 1, 24)
  put(8, content.length, packed.length, 0)
  const end64 = bytes.length
  put(4, 0x06064b50)
  put(8, 44)
  put(2, 45, 45)
  put(4, 0, 0)
  put(8, 1, 1, end64 - central, central)
  put(4, 0x07064b50, 0)
  put(8, end64)
  put(4, 1)
  put(4, 0x06054b50)
  put(2, 0, 0, 0xffff, 0xffff)
  put(4, ones, ones)
  put(2, 0)
  return new Uint8Array(bytes)
}
