import { useState } from 'preact/hooks'
import type { ToBuy } from '../../../geo/supports/shoppingList.ts'
import { From } from '../../ui/From.tsx'
import { type Column, Table } from '../../ui/Table.tsx'
import { showMoney } from '../show/money.ts'
import { InStoreDialog } from './InStoreDialog.tsx'
import { showAmount } from './PartTable.tsx'
import { Rolls } from './Rolls.tsx'
import { buyingFor, linesToBuy, materialsToBuy, scopeName } from './scope.ts'
import { buyWords, forWords, leftOutWords, nothingWords, printShopping, saveShoppingCsv } from './shopping.ts'

/** What is to be bought: for runs put up later, and for what those that stand need anew. */
export function ToBuyList() {
  const [storing, setStoring] = useState(false)
  const lines = linesToBuy.value
  const costs = lines.map(({ cost }) => cost)
  const columns: readonly Column<ToBuy>[] = [
    {
      head: 'part',
      cell: (line) => (
        <>
          {line.part}
          {(line.inStore > 0 || line.rolls !== null) && (
            <span class="hint">
              {' '}
              {showAmount(line.needed, line.unit)} needed
              {line.inStore > 0 && `, ${showAmount(line.inStore, line.unit)} in store`}
            </span>
          )}
        </>
      ),
      sort: ({ part }) => part,
    },
    { head: 'to buy', number: true, cell: buyWords, sort: ({ toBuy }) => toBuy },
    {
      head: 'cost',
      number: true,
      cell: ({ cost }) => (cost === null ? 'not known' : showMoney(cost)),
      sort: ({ cost }) => cost,
    },
  ]
  return (
    <section aria-label="To buy">
      <h2>To buy for {scopeName.value}</h2>
      {buyingFor.value.runs.length === 0 ? <p>{nothingWords()}</p> : <p>{forWords()}</p>}
      {leftOutWords().map((words) => (
        <p key={words} class="note">
          {words}
        </p>
      ))}
      {lines.length > 0 && (
        <>
          <Table
            caption="To buy"
            quietCaption
            columns={columns}
            rows={lines}
            rowKey={({ part, unit }) => `${part} ${unit}`}
          />
          <p>
            <strong>Parts to buy: {showMoney(costs.reduce<number>((sum, cost) => sum + (cost ?? 0), 0))}</strong>
            {costs.includes(null) && ', as far as counts and prices are known'}
          </p>
          <From about="what is to be bought">
            Of runs put up later all parts; of those that stand what lasts one season and what has lasted as the season
            begins, where they were put up in a season before it. What is in store under the same name is taken off; a
            length in store counts as one piece. Parts of runs that were taken down count where they are entered as in
            store. Cost goes by the length needed, not by whole rolls.
          </From>
          <Rolls rolls={materialsToBuy.value.rolls} />
        </>
      )}
      <p class="deeds">
        {lines.length > 0 && (
          <>
            <button type="button" class="first-deed" onClick={printShopping}>
              Shopping list
            </button>
            <button type="button" onClick={saveShoppingCsv}>
              Save as CSV
            </button>
          </>
        )}
        <button type="button" onClick={() => setStoring(true)}>
          What is in store
        </button>
      </p>
      {storing && <InStoreDialog onClose={() => setStoring(false)} />}
    </section>
  )
}
