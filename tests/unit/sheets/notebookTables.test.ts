import { expect, it } from 'vitest'
import { KINDS } from '../../../geo/model/kinds.ts'
import { TABLES } from '../../../src/sheets/notebook/tables.ts'

it('any kind of record can be had as a table, once', () => {
  expect(TABLES.map(({ kind }) => kind).sort()).toEqual(KINDS.map(({ name }) => name).sort())
  expect(new Set(TABLES.map(({ words }) => words)).size).toBe(TABLES.length)
})
