import type { seasonJson, wearJson, yearsJson } from '../../../geo/supports/moreJson.ts'
import type { ToBuy } from '../../../geo/supports/shoppingList.ts'
import { table } from '../table.ts'

export function shoppingTable(title: string, lines: readonly ToBuy[]): string {
  return `${title}\n${table(
    ['part', 'unit', 'needed', 'in store', 'to buy', 'rolls', 'of m', 'cost'],
    lines.map(({ part, unit, needed, inStore, toBuy, rolls, rollM, cost }) => [
      part,
      unit,
      needed,
      inStore,
      toBuy,
      rolls,
      rollM,
      cost,
    ]),
  )}`
}

export function seasonTable({ days, due }: ReturnType<typeof seasonJson>): string {
  return [
    `Held through the season\n${table(
      ['from', 'climbing m', 'held m', 'unheld m'],
      days.map((day) => [day.on, day.climbing_m, day.held_m, day.unheld_m]),
    )}`,
    `When support was needed, and when it stood\n${table(
      ['planting', 'crop', 'bed', 'needed', 'held from', 'days late'],
      due.map((one) => [
        one.planting,
        one.crop,
        one.bed,
        `${one.needed_on}${one.needed_assumed ? ' (assumed)' : ''}`,
        one.held_from ?? 'not held',
        one.late_days,
      ]),
    )}`,
  ].join('\n\n')
}

export function yearsTable(told: ReturnType<typeof yearsJson>): string {
  const { permanent, instead, saves, paid_back_in, sensitivity } = told.compared
  const last = told.seasons - 1
  return [
    `Over ${told.seasons} seasons, ${told.run === null ? 'an assumed run' : `run ${told.run}`} of ${told.length_m.toFixed(1)} m\n${table(
      ['system', 'each season anew', 'left up', 'not counted'],
      told.systems.map((one) => [
        one.system,
        one.each_season.total[last],
        one.left_up.total[last],
        one.unknown.join(', '),
      ]),
    )}`,
    `${permanent}, left up, against ${instead} put up each season: ${saves >= 0 ? 'saves' : 'costs more by'} ${Math.abs(saves).toFixed(2)}; ${
      paid_back_in === null ? 'not paid by then' : `paid from season ${paid_back_in} on`
    }.`,
    table(
      ['each alone', 'a third less saves', 'a third more saves'],
      sensitivity.map((one) => [one.assumption, one.third_less.saves, one.third_more.saves]),
    ),
  ].join('\n\n')
}

export function wearTable({ runs, systems, minutes }: ReturnType<typeof wearJson>): string {
  const between = (low: number | null, high: number | null) =>
    low === null || high === null ? 'too little to tell' : `${low.toFixed(3)} to ${high.toFixed(3)}`
  const broken = runs.filter((run) => run.broken.length > 0)
  return [
    ...(broken.length > 0
      ? [
          `Seen broken\n${table(
            ['run', 'system', 'seasons', 'what'],
            broken.map((run) => [
              run.id,
              run.system,
              run.seasons,
              run.broken.map(({ kind, on }) => `${kind} ${on}`).join('; '),
            ]),
          )}`,
        ]
      : []),
    `How systems held up\n${table(
      ['system', 'runs', 'broken for 100 m and season', 'between'],
      systems.map((one) => [
        one.system,
        one.runs,
        one.broken_per_m_season === null ? null : one.broken_per_m_season * 100,
        between(one.low && one.low * 100, one.high && one.high * 100),
      ]),
    )}`,
    ...(minutes.length > 0
      ? [
          `Timed\n${table(
            ['system', 'work', 'times', 'minutes a m', 'between'],
            minutes.map((one) => [one.system, one.work, one.times, one.minutes_per_m, between(one.low, one.high)]),
          )}`,
        ]
      : []),
  ].join('\n\n')
}
