import { parse } from 'csv-parse/sync'
import { expect, it } from 'vitest'
import { billCsv } from '../../../src/sheets/supports/shopping.ts'

it('a bill saved for a spreadsheet guards the parts’ names, and tells its figures unrounded', () => {
  const line = { part: '=wire;@2', unit: 'm' as const, needed: 10.125, inStore: 0, toBuy: null, rolls: 2, rollM: 50 }
  const [head, row] = parse(billCsv([line]), { record_delimiter: '\r\n' }) as string[][]
  expect(head).toEqual(['part', 'unit', 'needed', 'cost', 'in_store', 'to_buy', 'rolls', 'roll_m'])
  expect(row).toEqual(["'=wire;'@2", 'm', '10.125', '', '0', '', '2', '50'])
})
