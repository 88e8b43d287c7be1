import type { Database } from '../store/database.ts'

/** A part in store: how many pieces, or how many metres of it. */
export interface InStore {
  readonly id: string
  readonly part: string
  readonly count: number | null
  readonly metres: number | null
  readonly note: string | null
}

export const partsInStore = (db: Database): Promise<InStore[]> =>
  db.rows<InStore>('select id, part, count, metres, note from stores order by ord')
