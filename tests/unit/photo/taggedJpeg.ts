/** What a made picture's tags are to say; by Exif's names. */
export interface TagsTold {
  readonly lat?: readonly [degrees: number, minutes: number, secondsTimes100: number, letter: string]
  readonly lon?: readonly [degrees: number, minutes: number, secondsTimes100: number, letter: string]
  readonly altitudeCm?: number
  readonly isBelowSea?: boolean
  readonly headingTimes100?: number
  readonly north?: 'T' | 'M'
  readonly taken?: string
  readonly filmFocalMm?: number
  readonly subjectCm?: number
  readonly xmp?: string
}

interface Entry {
  readonly tag: number
  readonly type: 1 | 2 | 3 | 4 | 5
  readonly count: number
  readonly data: readonly number[]
}

const ascii = (tag: number, text: string): Entry => ({
  tag,
  type: 2,
  count: text.length + 1,
  data: [...new TextEncoder().encode(`${text}\0`)],
})
const long = (n: number) => [n & 255, (n >> 8) & 255, (n >> 16) & 255, (n >>> 24) & 255]
const rationals = (tag: number, values: readonly (readonly [number, number])[]): Entry => ({
  tag,
  type: 5,
  count: values.length,
  data: values.flatMap(([n, d]) => [...long(n), ...long(d)]),
})
const short = (tag: number, value: number): Entry => ({ tag, type: 3, count: 1, data: [value & 255, value >> 8, 0, 0] })
const pointer = (tag: number, at: number): Entry => ({ tag, type: 4, count: 1, data: long(at) })

/** One directory of a little-endian TIFF that begins at `at`, with its values behind it. */
const directory = (at: number, entries: readonly Entry[]): number[] => {
  const bytes = [entries.length & 255, entries.length >> 8]
  const behind: number[] = []
  const valuesAt = at + 2 + 12 * entries.length + 4
  for (const { tag, type, count, data } of entries) {
    const short4 = [...data, 0, 0, 0, 0].slice(0, 4)
    bytes.push(tag & 255, tag >> 8, type, 0, ...long(count))
    bytes.push(...(data.length <= 4 ? short4 : long(valuesAt + behind.length)))
    if (data.length > 4) behind.push(...data, ...(data.length % 2 ? [0] : []))
  }
  return [...bytes, 0, 0, 0, 0, ...behind]
}

/** The TIFF structure of Exif (CIPA DC-008, section 4.5): tags by their numbers there. */
const exifOf = (told: TagsTold): number[] => {
  const place = (values: readonly [number, number, number, string]) =>
    [
      [values[0], 1],
      [values[1], 1],
      [values[2], 100],
    ] as const
  const gps: Entry[] = [
    ...(told.lat ? [ascii(1, told.lat[3]), rationals(2, place(told.lat))] : []),
    ...(told.lon ? [ascii(3, told.lon[3]), rationals(4, place(told.lon))] : []),
    ...(told.altitudeCm === undefined
      ? []
      : [
          { tag: 5, type: 1, count: 1, data: [told.isBelowSea ? 1 : 0, 0, 0, 0] } as const,
          rationals(6, [[told.altitudeCm, 100]]),
        ]),
    ...(told.headingTimes100 === undefined
      ? []
      : [ascii(16, told.north ?? 'T'), rationals(17, [[told.headingTimes100, 100]])]),
  ]
  const exif: Entry[] = [
    ...(told.taken ? [ascii(0x9003, told.taken)] : []),
    ...(told.subjectCm === undefined ? [] : [rationals(0x9206, [[told.subjectCm, 100]])]),
    ...(told.filmFocalMm === undefined ? [] : [short(0xa405, told.filmFocalMm)]),
  ]
  const exifAt = 8 + 2 + 12 * 2 + 4
  const exifBytes = directory(exifAt, exif)
  const gpsAt = exifAt + exifBytes.length
  const first = directory(8, [pointer(0x8769, exifAt), pointer(0x8825, gpsAt)])
  return [0x49, 0x49, 42, 0, 8, 0, 0, 0, ...first, ...exifBytes, ...directory(gpsAt, gps)]
}

const segment = (body: readonly number[]): number[] => [
  0xff,
  0xe1,
  (body.length + 2) >> 8,
  (body.length + 2) & 255,
  ...body,
]
const text = (value: string) => [...new TextEncoder().encode(value)]

/** A JPEG with tags put in behind its first two bytes, as cameras have them (APP1 segments for Exif and XMP). */
export function taggedJpeg(jpeg: Uint8Array, told: TagsTold): Uint8Array<ArrayBuffer> {
  const { xmp, ...tags } = told
  const exif = Object.keys(tags).length > 0 ? segment([...text('Exif\0\0'), ...exifOf(tags)]) : []
  const packet = xmp === undefined ? [] : segment([...text('http://ns.adobe.com/xap/1.0/\0'), ...text(xmp)])
  return Uint8Array.from([...jpeg.slice(0, 2), ...exif, ...packet, ...jpeg.slice(2)])
}

/** The smallest frame of a JPEG that readers of tags go by: its start, a frame header of 64 × 48, its end. */
export const bareJpeg = Uint8Array.from([0xff, 0xd8, 0xff, 0xc0, 0, 11, 8, 0, 48, 0, 64, 1, 1, 0x11, 0, 0xff, 0xd9])
