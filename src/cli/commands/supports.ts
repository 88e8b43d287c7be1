import { ASSUMED_WIND } from '../../../geo/supports/load/assumedWind.ts'
import { supportsJson } from '../../../geo/supports/supportsJson.ts'
import { type SupportsReport, supportsReport } from '../../../geo/supports/supportsReport.ts'
import { seasonOf, seasonSpan } from '../../../geo/yield/season.ts'
import { withArchive } from '../archive.ts'
import { argumentsOf, dayOf, namedOperands, positiveOf } from '../arguments.ts'
import { type Command, jsonLine } from '../command.ts'
import { table } from '../table.ts'

export const supports: Command = {
  usage: 'supports ARCHIVE [--on YYYY-MM-DD] [--labour PER_HOUR] [--wind M_PER_S] [--json]',
  does: 'what the supports standing on a day take, cost a season and bear, and how rolls are cut over them',
  async run(args, { out, now }) {
    const { operands, values } = argumentsOf(args, { on: 'value', labour: 'value', wind: 'value', json: 'switch' })
    const [archive] = namedOperands(operands, ['ARCHIVE'])
    const on = dayOf(values.on, now)
    const { wind, leafCoefficient } = ASSUMED_WIND
    const settings = {
      labourPerHour: values.labour === undefined ? null : positiveOf('labour', values.labour, 0),
      wind: { ...wind, speedMPerS: positiveOf('wind', values.wind, wind.speedMPerS) },
      leafCoefficient,
    }
    const report = await withArchive(archive, (db, reading) => {
      const month = reading.content!.farm.season_start_month
      return supportsReport(db, on, seasonSpan(seasonOf(on, month), month), settings)
    })
    out(values.json ? jsonLine(supportsJson(report)) : told(report, on, settings.labourPerHour !== null))
    return 0
  },
}

const CAUTION =
  'Loads are indications, never a design: what people or a building depend on is for licensed practice and the local code. Before driving posts ask the local buried-services line, however shallow. Tensioned wire recoils: eye protection, gloves, never beyond the maker’s tension.'

function told(report: SupportsReport, on: string, priced: boolean): string {
  const runs = report.runs.map(({ run, recipe, bill, costPerSeason, load: { topLine, checks } }) => [
    run.id,
    recipe.name,
    run.bed ?? run.field,
    run.lengthM,
    bill.costNow,
    costPerSeason,
    bill.minutesPerSeason,
    topLine?.sagM,
    topLine?.safety,
    checks[0] && `${checks[0].what} (${Math.round(checks[0].share * 100)} %)`,
  ])
  const parts = new Map<string, number | null>()
  for (const { bill } of report.runs)
    for (const { part, count, unit } of bill.parts) {
      const key = unit === 'piece' ? part : `${part}, ${unit === 'm2' ? 'm²' : unit}`
      const sum = parts.get(key)
      parts.set(key, count === null || sum === null ? null : (sum ?? 0) + count)
    }
  const rolls = report.rolls.map(({ part, rollM, cuts, wasteM }) => [part, cuts.length, rollM, wasteM])
  const unknown = [...new Set(report.runs.flatMap(({ bill }) => bill.unknown))]
  return `${[
    `On ${on}${priced ? '' : '; labour is not priced'}.`,
    table(
      ['run', 'system', 'bed', 'm', 'cost now', 'a season', 'minutes a season', 'sag m', 'safety', 'gives first'],
      runs,
    ),
    table(['part', 'needed'], [...parts]),
    ...(rolls.length > 0 ? [table(['in rolls', 'rolls', 'of m', 'left over m'], rolls)] : []),
    ...(unknown.length > 0 ? [`Not counted or without a price: ${unknown.join(', ')}.`] : []),
    CAUTION,
  ].join('\n\n')}\n`
}
