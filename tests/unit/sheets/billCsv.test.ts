import { parse } from 'csv-parse/sync'
import { expect, it } from 'vitest'
import { shoppingCsv } from '../../../src/sheets/supports/shopping.ts'

it('a shopping list saved for a spreadsheet guards the parts’ names, and tells its figures unrounded', () => {
  const line = {
    part: '=wire;@2',
    unit: 'm',
    needed: 10.125,
    inStore: 0,
    toBuy: null,
    rolls: 2,
    rollM: 50,
    cost: null,
  } as const
  const [head, row] = parse(shoppingCsv([line], { parts: [] }), { record_delimiter: '\r\n' }) as string[][]
  expect(head).toEqual(['part', 'unit', 'needed', 'cost', 'in_store', 'to_buy', 'rolls', 'roll_m', 'to_buy_cost'])
  expect(row).toEqual(["'=wire;'@2", 'm', '10.125', '', '0', '', '2', '50', ''])
})
