import type { ReckonedNear } from '../../../geo/yield/near/reckonNear.ts'
import { nearWords, zoneFactorWords } from '../../../geo/yield/near/words.ts'
import { table } from '../table.ts'

/** What yield goes with, the surest first, in figures and in words. */
export function nearTable({ effects, plots, tooLittle, method, partialMethod, zones }: ReckonedNear): string {
  const heads = ['near', 'with', 'without', 'index', 'low', 'high', 'p', 'q', 'not to be told from']
  const lines = effects.map((e) => [e.id, e.with, e.without, e.effect, e.low, e.high, e.p, e.q, e.alike.join(', ')])
  const long = (metres: number): string => `${metres} m`
  const words = effects.map((effect) => `- ${nearWords(effect, long)}`)
  const inZones = zones.map(({ zone, factors }) => {
    const near = factors.map((factor) => `- ${zoneFactorWords(factor, long)}`)
    return `${zone.charAt(0).toUpperCase()}${zone.slice(1)}, its plots against all others\n${near.join('\n')}`
  })
  const told = tooLittle ?? `${table(heads, lines, 3)}\n\n${words.join('\n')}`
  return [`What lies near, over ${plots} plots\n${told}`, ...inZones, `${method} ${partialMethod}`.trim()].join('\n\n')
}

/** The questions worth a look in the field, zone by zone, to be ticked. */
export function questionsTable({ questions }: ReckonedNear): string {
  if (questions.length === 0) return 'No zone, so nothing to look at in the field.'
  const lines = questions.map(
    ({ zone, question, reason, kind, notedOn }) =>
      `[${notedOn === null ? ' ' : 'x'}] ${zone}: ${question}\n    ${reason}${notedOn === null ? '' : ` Noted ${notedOn}: ${kind}.`}`,
  )
  return `To look at in the field\n${lines.join('\n')}`
}
