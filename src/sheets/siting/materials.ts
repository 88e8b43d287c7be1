import { spreadsheetCsv } from '../../../geo/notebook/spreadsheetCell.ts'
import type { PartUse, SitingPlan, YearBill, YearPart } from '../../desk/siting/sitingDoor.ts'
import { type Block, heading, type PrintTable, words } from '../../print/page/blocks.ts'
import { CAUTIONS } from '../cautions.ts'
import { saveFile } from '../frame/saveFile.ts'
import { print } from '../print/toPrint.ts'
import { showNumber } from '../show/figures.ts'
import { showMinutes, showMoney } from '../show/money.ts'
import { showAmount } from '../supports/PartTable.tsx'

/** What parts are for, as headings over them. */
export const USE_WORDS: Readonly<Record<PartUse, string>> = {
  building: 'To build and renew, lasting',
  climbing: 'Along what stands, used up in the season',
  'one season': 'For a season, pulled in autumn',
}

export const MATERIALS_FROM =
  'Parts by the systems’ own rules and prices, as on the Supports sheet. What lasts is bought in the year that its row is built and again when it has lasted; of what stands already, what has lasted since it was put up. Needed is how much is set up; of what is pulled in autumn and put up again, new is the share that wears out in a season. Metres climbed and pulled are taken as runs as long as the usual bed.'

/** Pieces that are set up, or used up, are whole ones. */
const wholeWords = (amount: number | null, unit: YearPart['unit']): string =>
  showAmount(amount !== null && unit === 'piece' ? Math.ceil(amount - 1e-6) : amount, unit)

export const neededWords = ({ needed, unit }: YearPart): string => wholeWords(needed, unit)

/** What is bought, in parts of a piece where it goes by what wears out. */
export const boughtWords = ({ bought, unit, lasts_seasons: lasts }: YearPart): string =>
  bought !== null && unit === 'piece' && lasts !== null && Math.abs(bought - Math.round(bought)) > 1e-6
    ? showNumber(bought, 1)
    : wholeWords(bought, unit)

const lastsWords = ({ lasts_seasons: lasts }: YearPart): string =>
  lasts === null ? 'used up' : showNumber(lasts, Number.isInteger(lasts) ? 0 : 1)

export const lifeWords = (part: YearPart): string =>
  part.lasts_seasons === null ? 'used up' : `lasts ${lastsWords(part)} seasons`

export const costWords = ({ cost }: YearPart): string => (cost === null ? 'no price' : showNumber(cost, 2))

/** A year's money: parts, and labour with its time. */
export const sumWords = ({ parts_cost: parts, labour_cost: labour, minutes }: YearBill): string =>
  `Parts ${showMoney(parts)}, labour ${showMoney(labour)} for ${showMinutes(minutes)}: ${showMoney(parts + labour)} in all.`

/** Opens what a plan takes for paper, year by year. */
export function printMaterials(plan: SitingPlan): void {
  print({
    title: 'Materials by year',
    cautions: CAUTIONS.siting,
    compose: () => [
      words(MATERIALS_FROM, true),
      ...plan.materials.flatMap((bill): Block[] => [
        heading(String(bill.year)),
        { block: 'table', table: partsTable(`What ${bill.year} takes`, bill.parts) },
        words(sumWords(bill)),
      ]),
    ],
  })
}

/** Parts as a table on paper, under what they are for, where they are for more than one thing. */
export function partsTable(caption: string, parts: readonly YearPart[]): PrintTable {
  const number = (head: string) => ({ head, number: true })
  const ofOneUse = parts.every(({ use }) => use === parts[0]?.use)
  return {
    caption,
    ticked: true,
    columns: [{ head: 'part', number: false }, number('lasts'), number('needed'), number('new'), number('cost')],
    rows: parts.flatMap((part, n) => [
      ...(ofOneUse || parts[n - 1]?.use === part.use ? [] : [{ heading: USE_WORDS[part.use] }]),
      { cells: [part.part, lastsWords(part), neededWords(part), boughtWords(part), costWords(part)] },
    ]),
  }
}

/** Saves what a plan takes as CSV, labour among it, so that the column of costs comes to the plan's. */
export function saveMaterials(plan: SitingPlan): void {
  const first = plan.materials[0]?.year ?? ''
  saveFile(`materials-${first}.csv`, new Blob([materialsCsv(plan.materials)], { type: 'text/csv' }))
}

/** Unrounded, lengths in metres and areas in square metres whatever the units shown; money in the farm's currency. */
export function materialsCsv(bills: readonly YearBill[]): string {
  return spreadsheetCsv(
    ['year', 'use', 'part', 'unit', 'lasts_seasons', 'needed', 'bought', 'cost'],
    bills.flatMap(({ year, parts, minutes, labour_cost: labour }) => [
      ...parts.map((one) => [year, one.use, one.part, one.unit, one.lasts_seasons, one.needed, one.bought, one.cost]),
      [year, 'labour', '', 'min', null, minutes, null, labour],
    ]),
  )
}
