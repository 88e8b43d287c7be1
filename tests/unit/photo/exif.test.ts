import { execFileSync } from 'node:child_process'
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { describe, expect, it } from 'vitest'
import { pixelFromHeightM, readTaken } from '../../../geo/photo/exif.ts'
import { bareJpeg, taggedJpeg } from './taggedJpeg.ts'

const FLOWN = {
  lat: [46, 20, 1464, 'N'],
  lon: [15, 38, 2832, 'W'],
  altitudeCm: 31_250,
  headingTimes100: 8730,
  taken: '2025:06:01 11:52:07',
  filmFocalMm: 24,
  subjectCm: 6000,
} as const

const hasGdal = (() => {
  try {
    execFileSync('gdalinfo', ['--version'], { stdio: 'ignore' })
    return true
  } catch {
    return false
  }
})()

const xmp = (properties: string) =>
  `<?xpacket begin="" id="W5M0MpCehiHzreSzNTczkc9d"?><x:xmpmeta xmlns:x="adobe:ns:meta/"><rdf:RDF xmlns:rdf="http://www.w3.org/1999/02/22-rdf-syntax-ns#"><rdf:Description rdf:about="" xmlns:exif="http://ns.adobe.com/exif/1.0/" ${properties}/></rdf:RDF></x:xmpmeta><?xpacket end="w"?>`

describe('a picture’s own tags', () => {
  it('say when and where it was taken, how high, looking where, with which lens', async () => {
    // Numbers of tags, rationals and letters as in CIPA DC-008 (Exif 2.32), sections 4.6.5 and 4.6.6 (C2).
    expect(await readTaken(taggedJpeg(bareJpeg, FLOWN))).toEqual({
      on: '2025-06-01',
      at: [-(15 + 38 / 60 + 28.32 / 3600), 46 + 20 / 60 + 14.64 / 3600],
      altitudeM: 312.5,
      headingDeg: 87.3,
      isMagnetic: false,
      filmFocalMm: 24,
      subjectM: 60,
    })
    const south = await readTaken(
      taggedJpeg(bareJpeg, {
        lat: [33, 30, 0, 'S'],
        lon: [151, 15, 0, 'E'],
        altitudeCm: 250,
        isBelowSea: true,
        headingTimes100: 36_000,
        north: 'M',
      }),
    )
    expect(south).toMatchObject({ at: [151.25, -33.5], altitudeM: -2.5, headingDeg: 0, isMagnetic: true, on: null })
  })

  it.skipIf(!hasGdal)('are made for these tests so that GDAL reads the same from them', () => {
    const folder = mkdtempSync(join(tmpdir(), 'selion-tags-'))
    try {
      const plain = join(folder, 'plain.jpg')
      execFileSync('gdal_create', ['-of', 'JPEG', '-outsize', '64', '48', '-bands', '3', plain], { stdio: 'ignore' })
      const file = join(folder, 'flown.jpg')
      writeFileSync(file, taggedJpeg(readFileSync(plain), FLOWN))
      const said = execFileSync('gdalinfo', [file], { encoding: 'utf8' })
      expect(said).toMatch(/EXIF_GPSLatitude=\(46\) \(20\) \(14\.64\)/)
      expect(said).toMatch(/EXIF_GPSLongitudeRef=W/)
      expect(said).toMatch(/EXIF_GPSImgDirection=\(87\.3\)/)
      expect(said).toMatch(/EXIF_GPSAltitude=\(312\.5\)/)
      expect(said).toMatch(/EXIF_DateTimeOriginal=2025:06:01 11:52:07/)
      expect(said).toMatch(/EXIF_SubjectDistance=\(60\)/)
    } finally {
      rmSync(folder, { recursive: true })
    }
  })

  it('may stand in XMP instead, by Exif’s names there', async () => {
    // GPSCoordinate is "DDD,MM,SSk" or "DDD,MM.mmk" (XMP specification part 2, section 1.2.7.4; C2).
    const told = xmp(
      'exif:GPSLatitude="46,20.244N" exif:GPSLongitude="15,38,28.32W" exif:GPSImgDirection="8730/100" exif:GPSImgDirectionRef="M" exif:GPSAltitude="3125/10" exif:GPSAltitudeRef="0" exif:DateTimeOriginal="2025-06-01T11:52:07"',
    )
    const taken = await readTaken(taggedJpeg(bareJpeg, { xmp: told }))
    expect(taken.at![0]).toBeCloseTo(-(15 + 38 / 60 + 28.32 / 3600), 9)
    expect(taken.at![1]).toBeCloseTo(46 + 20.244 / 60, 9)
    expect(taken).toMatchObject({ on: '2025-06-01', headingDeg: 87.3, isMagnetic: true, altitudeM: 312.5 })
  })

  it('that are missing, damaged or without a fix say nothing', async () => {
    const nothing = {
      on: null,
      at: null,
      altitudeM: null,
      headingDeg: null,
      isMagnetic: false,
      filmFocalMm: null,
      subjectM: null,
    }
    expect(await readTaken(bareJpeg)).toEqual(nothing)
    expect(await readTaken(new Uint8Array())).toEqual(nothing)
    expect(await readTaken(new TextEncoder().encode('no picture at all, by far'))).toEqual(nothing)
    const tagged = taggedJpeg(bareJpeg, FLOWN)
    for (const length of [10, 40, 90, 150, 200]) expect(await readTaken(tagged.slice(0, length))).toBeDefined()
    const unfixed = taggedJpeg(bareJpeg, { lat: [0, 0, 0, 'N'], lon: [0, 0, 0, 'E'], taken: '0000:00:00 00:00:00' })
    expect(await readTaken(unfixed)).toEqual(nothing)
    const beyond = taggedJpeg(bareJpeg, { lat: [97, 0, 0, 'N'], lon: [12, 0, 0, 'E'] })
    expect((await readTaken(beyond)).at).toBeNull()
  })
})

it('tells a pixel’s size on the ground from the height it was taken at and the lens', () => {
  // A lens like 43.27 mm on film sees its diagonal, √(36² + 24²) mm, at a metre's distance as a metre (similar triangles).
  expect(pixelFromHeightM(100, Math.hypot(36, 24), 3000, 4000)).toBeCloseTo(100 / 5000, 12)
  expect(pixelFromHeightM(50, 24, 4000, 3000)).toBeCloseTo((50 * Math.sqrt(1872)) / 24 / 5000, 12)
})
