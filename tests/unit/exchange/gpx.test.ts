import { describe, expect, it } from 'vitest'
import { readGpx } from '../../../geo/exchange/gpx/readGpx.ts'
import { noPause } from '../../../geo/store/pace.ts'

const gpx = (inside: string, head = '<?xml version="1.0" encoding="UTF-8"?>') =>
  new TextEncoder().encode(
    `${head}<gpx version="1.1" creator="test" xmlns="http://www.topografix.com/GPX/1/1" xmlns:x="urn:x">${inside}</gpx>`,
  )
const read = (bytes: Uint8Array) => readGpx(bytes, 'walk.gpx', noPause)
const reasons = async (bytes: Uint8Array) => (await read(bytes)).notes.map((one) => `${one.record}: ${one.reason}`)

// Elements and attributes as the GPX 1.1 schema has them (topografix.com/GPX/1/1/gpx.xsd; M).
describe('GPX 1.1', () => {
  it('gives tracks by segment with height, time and dilution, routes, and waypoints', async () => {
    const { lines, waypoints, notes } = await read(
      gpx(`<wpt lat="46.1" lon="15.2"><ele>300.5</ele><name>Well</name><desc>wet &amp; deep</desc><sym>Flag</sym></wpt>
        <rte><name>Way</name><rtept lat="46" lon="15"/><rtept lat="46.001" lon="15.001"/></rte>
        <trk><name>Hedge</name><type>walk</type><extensions><x:a><x:crew>two</x:crew></x:a></extensions>
          <trkseg><trkpt lat="46.0000001" lon="-15.5"><ele>1</ele><time>2026-05-01T08:00:00Z</time><hdop>1.2</hdop></trkpt>
            <trkpt lat="46.1" lon="-15.5"/></trkseg>
          <trkseg><trkpt lat="46.2" lon="-15.5"/></trkseg></trk>`),
    )
    expect(notes).toEqual([])
    expect(waypoints).toEqual([
      {
        where: 'waypoint 1 (Well)',
        name: 'Well',
        description: 'wet & deep',
        type: null,
        extra: {},
        symbol: 'Flag',
        point: { lon: 15.2, lat: 46.1, heightM: 300.5, time: null, hdop: null },
      },
    ])
    expect(lines.map(({ of, where, segments }) => [of, where, segments.map((s) => s.length)])).toEqual([
      ['route', 'route 1 (Way)', [2]],
      ['track', 'track 1 (Hedge)', [2, 1]],
    ])
    expect(lines[1]).toMatchObject({ type: 'walk', extra: { crew: 'two' } })
    expect(lines[1]!.segments[0]![0]).toEqual({
      lon: -15.5,
      lat: 46.0000001,
      heightM: 1,
      time: '2026-05-01T08:00:00Z',
      hdop: 1.2,
    })
  })
  it('leaves out positions that are none, saying which', async () => {
    const given = gpx(
      '<trk><trkseg><trkpt lat="95" lon="1"/><trkpt lon="1"/><trkpt lat="x" lon="1"/><trkpt lat="1" lon="1"/></trkseg></trk>',
    )
    expect((await read(given)).lines[0]!.segments[0]).toHaveLength(1)
    expect(await reasons(given)).toEqual([
      expect.stringContaining('lat 95, lon 1 is no place on earth'),
      expect.stringContaining('has no lat'),
      expect.stringContaining('"x" is not a number'),
    ])
  })
  it('keeps what stood before a break', async () => {
    const whole = gpx(
      '<trk><trkseg><trkpt lat="1" lon="1"/><trkpt lat="2" lon="1"/></trkseg></trk><wpt lat="3" lon="3"/>',
    )
    const { lines, notes } = await read(whole.subarray(0, whole.length - 15))
    expect(lines[0]!.segments[0]).toHaveLength(2)
    expect(notes).toHaveLength(1)
    expect(notes[0]!.reason).toMatch(/not well-formed/)
  })
  it('refuses entities, of the file or from outside', async () => {
    const bomb = '<!DOCTYPE gpx [<!ENTITY a "aaaaaaaaaa"><!ENTITY b "&a;&a;&a;&a;&a;">]>'
    const outside = '<!DOCTYPE gpx [<!ENTITY f SYSTEM "file:///etc/hostname">]>'
    for (const head of [bomb, outside]) {
      const { waypoints, notes } = await read(gpx('<wpt lat="1" lon="1"><name>&b;</name></wpt>', head))
      expect(waypoints).toEqual([])
      expect(notes[0]!.reason).toMatch(/DOCTYPE/)
    }
    expect(await reasons(gpx('<wpt lat="1" lon="1"><name>&b;</name></wpt>'))).toEqual([
      expect.stringMatching(/not well-formed XML/),
    ])
  })
  it('is read in the encoding that it names', async () => {
    const latin = Uint8Array.from(
      [
        ...'<?xml version="1.0" encoding="ISO-8859-1"?><gpx><wpt lat="1" lon="1"><name>Bl\u00fcte</name></wpt></gpx>',
      ].map((c) => c.charCodeAt(0)),
    )
    expect((await read(latin)).waypoints[0]!.name).toBe('Blüte')
    expect(await reasons(new TextEncoder().encode('<?xml version="1.0" encoding="nonsense"?><gpx/>'))).toEqual([
      expect.stringMatching(/"nonsense".*not known/),
    ])
  })
  it('that is something else is told', async () => {
    expect(await reasons(new TextEncoder().encode('<kml/>'))).toEqual([expect.stringMatching(/is no GPX/)])
  })
})
