import { KINDS, kindNamed } from '../model/kinds.ts'
import { type Database, quoted } from './database.ts'
import type { Edit } from './edit.ts'

/** The edits that remove records and all that stands on them, what depends first; each once, however many of its grounds go. */
export async function removalOf(
  db: Database,
  things: readonly { readonly kind: string; readonly id: string }[],
): Promise<Edit[]> {
  const found = new Map<string, Edit>()
  const byKind = new Map<string, string[]>()
  for (const { kind, id } of things) byKind.set(kindNamed(kind).name, [...(byKind.get(kind) ?? []), id])
  let layer = [...byKind].map(([kind, ids]) => ({ kind, ids }))
  while (layer.length > 0) {
    const next: typeof layer = []
    for (const { kind, ids } of layer) {
      for (const one of ids) {
        const key = JSON.stringify([kind, one])
        found.delete(key)
        found.set(key, { do: 'remove', kind, id: one })
      }
      for (const other of KINDS)
        for (const [column, field] of Object.entries(other.fields)) {
          if (field.refers !== kind) continue
          const rows = await db.rows<{ id: string }>(
            `select id from ${quoted(other.name)} where ${quoted(column)} = any($1) order by ord`,
            [ids],
          )
          if (rows.length > 0) next.push({ kind: other.name, ids: rows.map((row) => row.id) })
        }
    }
    layer = next
  }
  return [...found.values()].reverse()
}
