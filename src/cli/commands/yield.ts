import { writeFile } from 'node:fs/promises'
import { planeAbout } from '../../../geo/plane/plane.ts'
import { readOrigin } from '../../../geo/store/origin.ts'
import { reckonYield } from '../../../geo/yield/reckonYield.ts'
import { seasonOf } from '../../../geo/yield/season.ts'
import { surfaceGeoJson } from '../../../geo/yield/surfaceGeoJson.ts'
import { type YieldJson, yieldJson } from '../../../geo/yield/yieldJson.ts'
import type { YieldReport } from '../../../geo/yield/yieldReport.ts'
import { withArchive } from '../archive.ts'
import { argumentsOf, dayOf, namedOperands, positiveOf } from '../arguments.ts'
import { type Command, jsonLine } from '../command.ts'
import { table } from '../table.ts'
import { WrongUse } from '../wrongUse.ts'

/** A farm without any place has no origin, and no cell either. */
const NOWHERE = [0, 0] as const

export const yieldCommand: Command = {
  usage: 'yield ARCHIVE [--season YYYY] [--on YYYY-MM-DD] [--cell METRES] [--out FILE.geojson] [--json]',
  does: 'mass, density, index, hot and cold stretches and low-yield zones of a season, else of the one that holds the day',
  async run(args, { out, now }) {
    const { operands, values } = argumentsOf(args, {
      season: 'value',
      on: 'value',
      cell: 'value',
      out: 'value',
      json: 'switch',
    })
    const [archive] = namedOperands(operands, ['ARCHIVE'])
    const cellM = positiveOf('cell', values.cell, 1)
    const season = values.season === undefined ? null : Number(values.season)
    if (season !== null && !/^\d{4}$/.test(String(values.season)))
      throw new WrongUse(`--season ${values.season}: not a year`)
    const on = dayOf(values.on, now)
    const { report, json } = await withArchive(archive, async (db, reading) => {
      const startMonth = reading.content!.farm.season_start_month
      const asked = season ?? seasonOf(on, startMonth)
      const { report, outlines } = await reckonYield(db, { season: asked, cellM }).catch((error: unknown) => {
        throw error instanceof RangeError ? new WrongUse(error.message) : error
      })
      if (typeof values.out === 'string') {
        const plane = planeAbout((await readOrigin(db)) ?? NOWHERE)
        await writeFile(values.out, JSON.stringify(surfaceGeoJson(report, plane)))
      }
      return { report, json: yieldJson(report, outlines) }
    })
    out(values.json ? jsonLine(json) : told(report, json))
    return 0
  },
}

function told(report: YieldReport, json: YieldJson): string {
  const beds = json.beds.map((b) => [b.id, b.kg, b.kg_per_m2, b.kg_per_row_m, b.index, b.gi_star, b.p, b.q])
  const zones = json.zones.map((z) => [z.area_m2, z.index, z.shortfall_kg, z.beds.join(', ')])
  const parts = [
    `Season ${report.season}: ${json.total_kg.toFixed(1)} kg, ${json.kg_per_m2?.toFixed(2) ?? '–'} kg/m² over the beds that were picked.`,
    table(['bed', 'kg', 'kg/m²', 'kg/row m', 'index', 'Gi*', 'p', 'q'], beds, 3),
    zones.length > 0 ? `Low-yield zones\n${table(['m²', 'index', 'short kg', 'beds'], zones)}` : 'No low-yield zone.',
    ...report.notes.map((note) => note.detail),
  ]
  if (report.hotAndCold.tooLittle !== null) parts.push(report.hotAndCold.tooLittle)
  return `${parts.join('\n\n')}\n`
}
