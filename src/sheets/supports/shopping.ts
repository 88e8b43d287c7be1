import { spreadsheetCsv } from '../../../geo/notebook/spreadsheetCell.ts'
import { shoppingList, type ToBuy } from '../../../geo/supports/shoppingList.ts'
import { type Block, heading, words } from '../../print/page/blocks.ts'
import { CAUTIONS } from '../cautions.ts'
import { saveFile } from '../frame/saveFile.ts'
import { print } from '../print/toPrint.ts'
import { showDay } from '../show/dates.ts'
import { lengthFigure, showCount, told } from '../show/figures.ts'
import { showMoney } from '../show/money.ts'
import { units } from '../state/farm.ts'
import { seen } from '../state/supports.ts'
import { on } from '../state/where.ts'
import { showAmount } from './PartTable.tsx'
import { bill, scopeName, scopeRuns, whereOf } from './scope.ts'

const linesToBuy = (): ToBuy[] => shoppingList(bill.value, seen.value?.inStore ?? [])

/** Opens the shopping list for paper: what is to be bought, how rolls are cut, and the runs it is for. */
export function printShopping(): void {
  print({ title: 'Shopping list for supports', cautions: CAUTIONS.supports, compose: composed })
}

function composed(): readonly Block[] {
  const m = (lengthM: number) => told(lengthFigure(lengthM, units.value))
  const lines = linesToBuy()
  const toGet = lines.filter(({ toBuy }) => toBuy === null || toBuy > 0)
  const number = (head: string) => ({ head, number: true })
  return [
    heading(`For ${scopeName.value}, ${showDay(on.value)}`),
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
    words(`Parts bought new: ${showMoney(bill.value.costNow)}.`),
    ...bill.value.rolls.flatMap(({ part, rollM, cuts, wasteM }): Block[] => [
      heading(`${part}: rolls of ${m(rollM)}, ${m(wasteM)} left over`, true),
      {
        block: 'list',
        items: cuts.map((roll, n) => `Roll ${showCount(n + 1)}: ${roll.map((cutM) => m(cutM)).join(' + ')}`),
      },
    ]),
    {
      block: 'table',
      table: {
        caption: 'Runs it is for',
        ticked: false,
        columns: [{ head: 'where', number: false }, { head: 'system', number: false }, number('long'), number('posts')],
        rows: scopeRuns.value.map(({ run, recipe }) => ({
          cells: [
            whereOf(run),
            recipe.name,
            m(run.lengthM),
            showCount(run.posts.reduce((sum, { count }) => sum + count, 0)),
          ],
        })),
      },
    },
  ]
}

function buyWords({ toBuy, unit, rolls, rollM }: ToBuy): string {
  if (rolls === null || rollM === null) return showAmount(toBuy, unit)
  return `${showCount(rolls)} × ${told(lengthFigure(rollM, units.value))}`
}

/** Saves the bill as CSV for a spreadsheet: unrounded SI. */
export function saveBillCsv(): void {
  saveFile(`supports-${on.value}.csv`, new Blob([billCsv(linesToBuy())], { type: 'text/csv' }))
}

/** The bill's lines as CSV; money in the farm's currency, lengths in metres whatever the units shown. */
export function billCsv(lines: readonly ToBuy[]): string {
  const cost = new Map(bill.value.parts.map((part) => [`${part.unit} ${part.part}`, part.cost]))
  const rows = lines.map((line) => [
    line.part,
    line.unit,
    line.needed,
    cost.get(`${line.unit} ${line.part}`) ?? null,
    line.inStore,
    line.toBuy,
    line.rolls,
    line.rollM,
  ])
  return spreadsheetCsv(['part', 'unit', 'needed', 'cost', 'in_store', 'to_buy', 'rolls', 'roll_m'], rows)
}
