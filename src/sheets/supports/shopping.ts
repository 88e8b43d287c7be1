import { spreadsheetCsv } from '../../../geo/notebook/spreadsheetCell.ts'
import type { Materials } from '../../../geo/supports/materialsOf.ts'
import type { ToBuy } from '../../../geo/supports/shoppingList.ts'
import { type Block, heading, type PrintRow, words } from '../../print/page/blocks.ts'
import { CAUTIONS } from '../cautions.ts'
import { saveFile } from '../frame/saveFile.ts'
import { print } from '../print/toPrint.ts'
import { showDay } from '../show/dates.ts'
import { lengthFigure, showCount, told } from '../show/figures.ts'
import { showMoney } from '../show/money.ts'
import { units } from '../state/farm.ts'
import { on, season } from '../state/where.ts'
import { showAmount } from './PartTable.tsx'
import {
  bill,
  buyingFor,
  linesToBuy,
  materialsToBuy,
  type SeenOfSystem,
  scopeName,
  scopePlanned,
  scopeRuns,
  whereOf,
} from './scope.ts'

const number = (head: string) => ({ head, number: true })
const m = (lengthM: number) => told(lengthFigure(lengthM, units.value))
const runsWord = (count: number) => `${showCount(count)} ${count === 1 ? 'run' : 'runs'}`

/** What the list is for, in a sentence. */
export function forWords(): string {
  const planned = scopePlanned.value.length
  const standing = buyingFor.value.standing
  const parts = [
    ...(planned > 0 ? [`all parts of ${runsWord(planned)} put up after ${showDay(on.value)}`] : []),
    ...(standing > 0
      ? [
          `what ${runsWord(standing)} that ${standing === 1 ? 'stands needs' : 'stand need'} anew in the season ${season.value}`,
        ]
      : []),
  ]
  return `For ${parts.join(', and ')}. What stands and lasts is not on it.`
}

export const nothingWords = (): string =>
  `Nothing: no run here is put up after ${showDay(on.value)}, and those that stand need nothing anew in the season ${season.value}.`

/** What the list can't tell, each in a sentence. */
export function leftOutWords(): readonly string[] {
  const { untold, undated } = buyingFor.value
  return [
    ...(untold.length > 0
      ? [`Not on the list for runs that stand, since their systems don’t tell how long it lasts: ${untold.join(', ')}.`]
      : []),
    ...(undated > 0
      ? [`${runsWord(undated)} without a day put up: for them only what lasts one season is on the list.`]
      : []),
  ]
}

/** Opens the shopping list for paper: what is to be bought, how rolls are cut, and the runs it is for. */
export function printShopping(): void {
  print({ title: 'Shopping list for supports', cautions: CAUTIONS.supports, compose: shoppingBlocks })
}

function shoppingBlocks(): readonly Block[] {
  const toGet = linesToBuy.value.filter(({ toBuy }) => toBuy === null || toBuy > 0)
  const planned = scopePlanned.value
  const renewed = new Set(buyingFor.value.runs.filter(({ only }) => only).map(({ run }) => run))
  return [
    heading(`For ${scopeName.value}, ${showDay(on.value)}`),
    words(forWords()),
    ...leftOutWords().map((one) => words(one, true)),
    words(
      'Needed less what is in store under the same name. What is in store by length counts as one piece. Prices are the farm’s own entries.',
      true,
    ),
    {
      block: 'table',
      table: {
        caption: 'To buy',
        ticked: true,
        columns: [{ head: 'part', number: false }, number('needed'), number('in store'), number('to buy')],
        rows: toGet.map((line) => ({
          cells: [line.part, showAmount(line.needed, line.unit), showAmount(line.inStore, line.unit), buyWords(line)],
        })),
      },
    },
    words(`Parts to buy: ${showMoney(linesToBuy.value.reduce((sum, { cost }) => sum + (cost ?? 0), 0))}.`),
    ...rollBlocks(materialsToBuy.value.rolls),
    ...(planned.length > 0 ? [runBlock('Runs put up later', planned)] : []),
    ...(renewed.size > 0 ? [words(`Runs that stand and need something anew: ${showCount(renewed.size)}.`)] : []),
  ]
}

/** Opens for paper what it takes to build all that stands anew: a reading, no list of what to buy. */
export function printAnew(): void {
  print({ title: 'To build all of this anew', cautions: CAUTIONS.supports, compose: anewBlocks })
}

function anewBlocks(): readonly Block[] {
  return [
    heading(`What stands in ${scopeName.value}, ${showDay(on.value)}`),
    words('As if all of it were bought new: what stands in use is in it. Prices are the farm’s own entries.', true),
    {
      block: 'table',
      table: {
        caption: 'All parts, new',
        ticked: false,
        columns: [{ head: 'part', number: false }, number('needed'), number('cost')],
        rows: bill.value.parts.map(({ part, count, unit, cost }) => ({
          cells: [part, showAmount(count, unit), cost === null ? 'no price' : showMoney(cost)],
        })),
      },
    },
    words(`Parts bought new: ${showMoney(bill.value.costNow)}.`),
    ...rollBlocks(bill.value.rolls),
    runBlock('Runs that stand', scopeRuns.value),
  ]
}

const rollBlocks = (rolls: Materials['rolls']): readonly Block[] =>
  rolls.flatMap(({ part, rollM, cuts, wasteM }): Block[] => [
    heading(`${part}: rolls of ${m(rollM)}, ${m(wasteM)} left over`, true),
    {
      block: 'list',
      items: cuts.map((roll, n) => `Roll ${showCount(n + 1)}: ${roll.map((cutM) => m(cutM)).join(' + ')}`),
    },
  ])

function runBlock(caption: string, runs: readonly SeenOfSystem[]): Block {
  const rows = runs.map(
    ({ run, recipe }): PrintRow => ({
      cells: [
        whereOf(run),
        recipe.name,
        run.putUp === null ? 'not known' : showDay(run.putUp),
        m(run.lengthM),
        showCount(run.posts.reduce((sum, { count }) => sum + count, 0)),
      ],
    }),
  )
  const columns = [
    { head: 'where', number: false },
    { head: 'system', number: false },
    { head: 'put up', number: false },
    number('long'),
    number('posts'),
  ]
  return { block: 'table', table: { caption, ticked: false, columns, rows } }
}

/** How much is to be bought: whole rolls where it is sold so. */
export function buyWords({ toBuy, unit, rolls, rollM }: ToBuy): string {
  if (rolls === null || rolls === 0 || rollM === null) return showAmount(toBuy, unit)
  return `${showCount(rolls)} × ${m(rollM)}`
}

/** Saves the shopping list as CSV by RFC 4180: unrounded SI. */
export function saveShoppingCsv(): void {
  save(`supports-to-buy-${on.value}.csv`, shoppingCsv(linesToBuy.value, materialsToBuy.value))
}

/** Saves what it takes to build all that stands anew as CSV. */
export function saveAnewCsv(): void {
  save(`supports-anew-${on.value}.csv`, anewCsv(bill.value))
}

const save = (name: string, text: string) => saveFile(name, new Blob([text], { type: 'text/csv' }))

/** The list's lines: money in the farm's currency, lengths in metres whatever the units shown; `cost` is of all that is needed, `to_buy_cost` of what is to be bought. */
export function shoppingCsv(lines: readonly ToBuy[], { parts }: Pick<Materials, 'parts'>): string {
  const cost = new Map(parts.map((part) => [`${part.unit} ${part.part}`, part.cost]))
  return spreadsheetCsv(
    ['part', 'unit', 'needed', 'cost', 'in_store', 'to_buy', 'rolls', 'roll_m', 'to_buy_cost'],
    lines.map((line) => [
      line.part,
      line.unit,
      line.needed,
      cost.get(`${line.unit} ${line.part}`) ?? null,
      line.inStore,
      line.toBuy,
      line.rolls,
      line.rollM,
      line.cost,
    ]),
  )
}

/** All parts, new, with the rolls that they are cut from; money and lengths as in the list. */
export function anewCsv({ parts, rolls }: Materials): string {
  return spreadsheetCsv(
    ['part', 'unit', 'needed', 'cost', 'rolls', 'roll_m'],
    parts.map(({ part, unit, count, cost }) => {
      const cut = unit === 'm' ? rolls.filter((one) => one.part === part) : []
      const whole = cut.length === 0 ? null : cut.reduce((sum, { cuts }) => sum + cuts.length, 0)
      return [part, unit, count, cost, whole, cut[0]?.rollM ?? null]
    }),
  )
}
