import { writeFile } from 'node:fs/promises'
import { planeAbout } from '../../../geo/plane/plane.ts'
import { readOrigin } from '../../../geo/store/origin.ts'
import { reckonYield } from '../../../geo/yield/reckonYield.ts'
import { seasonOf } from '../../../geo/yield/season.ts'
import { surfaceGeoJson } from '../../../geo/yield/surfaceGeoJson.ts'
import { surfaceTable } from '../../../geo/yield/surfaceTable.ts'
import { yieldJson } from '../../../geo/yield/yieldJson.ts'
import type { YieldReport } from '../../../geo/yield/yieldReport.ts'
import { withArchive } from '../archive.ts'
import { argumentsOf, dayOf, namedOperands, positiveOf } from '../arguments.ts'
import { type Command, jsonLine } from '../command.ts'
import { csvLines } from '../csvLines.ts'
import { WrongUse } from '../wrongUse.ts'
import { alsoGiven, tellAlso } from '../yield/also.ts'
import { snakeKeys } from '../yield/snakeKeys.ts'
import { yieldTables } from '../yield/tables.ts'
import { cropsGiven, seasonGiven, seasonsGiven, surfaceFormat } from '../yield/yieldArguments.ts'

/** Parts whose name in JSON is another's already. */
const ALSO_KEYS: Readonly<Record<string, string>> = { seasons: 'by_season' }

/** A farm without any place has no origin, and no cell either. */
const NOWHERE = [0, 0] as const

export const yieldCommand: Command = {
  usage:
    'yield ARCHIVE [--season YYYY | --seasons YYYY-YYYY] [--on YYYY-MM-DD] [--crop ID | --family NAME] [--cell METRES] [--also PART,… | --also all] [--out FILE.geojson|FILE.csv] [--json]',
  does: 'mass, density, index, hot and cold stretches and low-yield zones of a season, else of the one that holds the day; of several seasons together',
  async run(args, { out, now }) {
    const { operands, values } = argumentsOf(args, {
      season: 'value',
      seasons: 'value',
      on: 'value',
      crop: 'value',
      family: 'value',
      cell: 'value',
      out: 'value',
      also: 'value',
      json: 'switch',
    })
    const [archive] = namedOperands(operands, ['ARCHIVE'])
    const cellM = positiveOf('cell', values.cell, 1)
    const season = seasonGiven(values.season)
    const seasons = seasonsGiven(values.seasons)
    if (season !== null && seasons.length > 0) throw new WrongUse('--season and --seasons exclude one another')
    const of = cropsGiven(values.crop, values.family)
    const file = typeof values.out === 'string' ? { name: values.out, format: surfaceFormat(values.out) } : null
    const parts = alsoGiven(values.also)
    const on = dayOf(values.on, now)
    const { report, json, also } = await withArchive(archive, async (db, reading) => {
      const asked = season ?? seasonOf(on, reading.content!.farm.season_start_month)
      const { report, outlines } = await reckonYield(db, { season: asked, seasons, of, cellM }).catch(
        (error: unknown) => {
          throw error instanceof RangeError ? new WrongUse(error.message) : error
        },
      )
      if (file) {
        const plane = planeAbout((await readOrigin(db)) ?? NOWHERE)
        await writeFile(file.name, surfaceText(report, plane, file.format))
      }
      const also = await tellAlso(db, parts, { season: asked, seasons, of, on })
      return { report, json: yieldJson(report, outlines), also }
    })
    if (values.json) {
      const data = [...also].map(([name, { data }]) => [ALSO_KEYS[name] ?? name, snakeKeys(data)])
      out(jsonLine({ ...json, ...Object.fromEntries(data) }))
    } else out([yieldTables(report, json), ...[...also.values()].map(({ text }) => `${text}\n`)].join('\n'))
    return 0
  },
}

function surfaceText(report: YieldReport, plane: ReturnType<typeof planeAbout>, format: 'csv' | 'geojson'): string {
  return format === 'csv' ? csvLines(surfaceTable(report, plane)) : JSON.stringify(surfaceGeoJson(report, plane))
}
