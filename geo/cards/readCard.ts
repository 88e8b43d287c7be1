import type { AnyRecord } from '../model/kind.ts'
import { kindNamed } from '../model/kinds.ts'
import type { Database } from '../store/database.ts'
import { fromStored, readStored } from '../store/row.ts'
import { bedCard } from './bedCard.ts'
import type { Card, CardBody } from './card.ts'
import { dressingCard } from './dressingCard.ts'
import { fieldCard } from './fieldCard.ts'
import { lotCard } from './lotCard.ts'
import { observationCard } from './observationCard.ts'
import { pickCard } from './pickCard.ts'
import { plainCard } from './plainCard.ts'
import { plantingCard } from './plantingCard.ts'
import { rowCard } from './rowCard.ts'
import { supportCard } from './supportCard.ts'
import { treeCard } from './treeCard.ts'

type MakeCard = (db: Database, record: AnyRecord, on: string) => Promise<CardBody>

const CARDS: Readonly<Record<string, MakeCard>> = {
  fields: fieldCard,
  beds: bedCard,
  rows: rowCard,
  trees: treeCard,
  supports: supportCard,
  plantings: plantingCard,
  picks: pickCard,
  stock_lots: lotCard,
  dressings: dressingCard,
  observations: observationCard,
}

/** The card of a record as on a day, or null where there is none. */
export async function readCard(db: Database, kindName: string, id: string, on: string): Promise<Card | null> {
  const kind = kindNamed(kindName)
  const [row] = await readStored(db, kind, { by: 'id', values: [id] })
  if (!row) return null
  const record = fromStored(row)
  const body = await (CARDS[kind.name] ?? plainCard)(db, record, on)
  return { kind: kind.name, id, record, ...body }
}
