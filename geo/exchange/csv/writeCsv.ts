import type { FarmContent } from '../archive.ts'
import type { Written } from '../driver.ts'
import { givenLayers } from '../layers/givenLayers.ts'
import { KIND_COLUMN } from '../layers/partLayers.ts'
import { rightHanded } from '../rightHanded.ts'
import { writeWkt } from './writeWkt.ts'

/** A farm as one table (RFC 4180) with a column of well-known text in lon/lat; `kind` says what each line is. */
export function writeCsv(content: FarmContent): Written {
  const layers = givenLayers(content)
  const columns = [...new Set(layers.flatMap((layer) => layer.columns.map(({ name }) => name)))]
  const lines = [['WKT', KIND_COLUMN, ...columns]]
  for (const { kind, features } of layers)
    for (const { geometry, values } of features)
      lines.push([
        writeWkt(rightHanded(geometry)),
        kind.name,
        ...columns.map((name) => (Object.hasOwn(values, name) ? String(values[name]) : '')),
      ])
  const text = lines.map((cells) => cells.map(quoted).join(',')).join('\r\n')
  return { bytes: new TextEncoder().encode(`${text}\r\n`), notes: [] }
}

function quoted(cell: string): string {
  return /[",\r\n]/.test(cell) ? `"${cell.replaceAll('"', '""')}"` : cell
}
