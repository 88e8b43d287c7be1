import { ask } from '../state/door.ts'
import { goesToo, type Standing } from './goesToo.ts'

const WORDS: Readonly<Record<string, readonly [one: string, many: string]>> = {
  beds: ['bed', 'beds'],
  rows: ['row', 'rows'],
  plantings: ['planting', 'plantings'],
  supports: ['support run', 'support runs'],
  support_work: ['time of work on it', 'times of work on it'],
  system_parts: ['part of it', 'parts of it'],
  system_work: ['line of its work', 'lines of its work'],
  picks: ['pick', 'picks'],
  shares: ['share', 'shares'],
  dressings: ['dressing', 'dressings'],
  stock_lots: ['stock lot', 'stock lots'],
  stock_moves: ['stock move', 'stock moves'],
  varieties: ['variety', 'varieties'],
  containers: ['container', 'containers'],
}

/** What goes with records when they are removed, in words; empty when nothing does. */
export async function askGoesToo(
  removed: readonly { readonly kind: string; readonly id: string }[],
): Promise<readonly string[]> {
  const { KINDS } = await import('../../../geo/model/kinds.ts')
  const kinds = KINDS.map(({ name, fields }): Standing => {
    const refers = Object.entries(fields).flatMap(([field, { refers }]) => (refers ? [{ field, to: refers }] : []))
    return { kind: name, refers }
  })
  const below = kinds.filter(({ kind }) => removed.some((one) => standsOn(kinds, kind, one.kind)))
  const listed = await Promise.all(
    below.map(async ({ kind }) => {
      const reply = await ask('listRecords', { kind })
      return [kind, reply.ok ? reply.value : []] as const
    }),
  )
  const counts = goesToo(below, new Map(listed), removed)
  return [...counts].map(([kind, count]) => {
    const [one, many] = WORDS[kind] ?? [kind, kind]
    return `${count.toLocaleString()} ${count === 1 ? one : many}`
  })
}

/** True where records of a kind may stand, at however many removes, on records of another. */
function standsOn(kinds: readonly Standing[], kind: string, base: string): boolean {
  const direct = kinds.find((one) => one.kind === kind)?.refers ?? []
  return direct.some(({ to }) => to === base || (to !== kind && standsOn(kinds, to, base)))
}
