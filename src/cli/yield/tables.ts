import type { YieldJson } from '../../../geo/yield/yieldJson.ts'
import type { YieldReport } from '../../../geo/yield/yieldReport.ts'
import { table } from '../table.ts'

/** A yield report as tables for people. */
export function yieldTables(report: YieldReport, json: YieldJson): string {
  const beds = json.beds.map((b) => [b.id, b.kg, b.kg_per_m2, b.kg_per_row_m, b.index, b.gi_star, b.p, b.q])
  const zones = json.zones.map((z) => [z.area_m2, z.index, z.shortfall_kg, z.shortfall_row_m, z.beds.join(', ')])
  const parts = [
    `${seasonsTold(report.seasons)}: ${json.total_kg.toFixed(1)} kg, ${json.kg_per_m2?.toFixed(2) ?? '–'} kg/m²${report.seasons.length > 1 ? ' a season' : ''} over the beds that were picked.`,
    table(['bed', 'kg', 'kg/m²', 'kg/row m', 'index', 'Gi*', 'p', 'q'], beds, 3),
    zones.length > 0
      ? `Low-yield zones\n${table(['m²', 'index', 'short kg', 'short row m', 'beds'], zones)}`
      : 'No low-yield zone.',
    ...report.notes.map((note) => note.detail),
  ]
  if (report.hotAndCold.tooLittle !== null) parts.push(report.hotAndCold.tooLittle)
  return `${parts.join('\n\n')}\n`
}

function seasonsTold(seasons: readonly number[]): string {
  return seasons.length === 1 ? `Season ${seasons[0]}` : `Seasons ${seasons.join(', ')} together`
}
