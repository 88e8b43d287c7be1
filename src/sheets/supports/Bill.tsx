import { Choice } from '../../ui/Choice.tsx'
import { Figure } from '../../ui/Figure.tsx'
import { showCount } from '../show/figures.ts'
import { showMinutes, showMoney } from '../show/money.ts'
import { assumed } from '../state/assumed.ts'
import { type Scope, scopeAsked } from '../state/supports.ts'
import { LabourEntry, MinutesChoice } from './AssumedEntry.tsx'
import { PartTable } from './PartTable.tsx'
import { Rolls } from './Rolls.tsx'
import { bill, scope, scopeName, scopeRuns, scopes } from './scope.ts'
import { printAnew, saveAnewCsv } from './shopping.ts'
import { ToBuyList } from './ToBuyList.tsx'

const SCOPE_WORD: Readonly<Record<Scope, string>> = { run: 'this run', field: 'its field', farm: 'farm' }

/** Of the run, field or farm: what is to be bought, and what it would take to build all of it anew. */
export function Bill() {
  return (
    <section aria-label="Bill of materials">
      {scopes.value.length > 1 && (
        <Choice
          label="What the bill is for"
          options={scopes.value.map((value) => ({ value, words: SCOPE_WORD[value] }))}
          value={scope.value}
          onChange={(value) => {
            scopeAsked.value = value
          }}
        />
      )}
      <ToBuyList />
      <BuiltAnew />
    </section>
  )
}

/** Parts, rolls, cost and labour of all that stands, as if none of it were there. */
function BuiltAnew() {
  const { parts, rolls, costNow, costPerSeason, minutesPerSeason, puttingUpMinutes } = bill.value
  const count = scopeRuns.value.length
  return (
    <section aria-label="To build all of this anew">
      <h2>To build all of this anew</h2>
      {count === 0 ? (
        <p class="hint">No run stands here on this day.</p>
      ) : (
        <>
          <Figure
            value={showMoney(costNow, 0)}
            unit=""
            from={`As if all that stands in ${scopeName.value} were bought new, without labour; less only posts that stood before their run. A season: every part’s cost over the seasons it lasts, and labour at ${showMoney(assumed.value.labourPerHour)} an hour, its putting up and taking down spread over the seasons that a run is left up. Prices are those of the farm’s systems.`}
          >
            for the parts of {count === 1 ? 'the run that stands' : `all ${showCount(count)} runs that stand`};{' '}
            {showMoney(costPerSeason, 0)} a season with {showMinutes(minutesPerSeason)} of labour; putting up takes{' '}
            {showMinutes(puttingUpMinutes)}
          </Figure>
          <LabourEntry />
          <MinutesChoice />
          <PartTable parts={parts} />
          <Rolls rolls={rolls} />
          <p class="deeds">
            <button type="button" onClick={printAnew}>
              Print what it takes anew
            </button>
            <button type="button" onClick={saveAnewCsv}>
              Save it as CSV
            </button>
          </p>
        </>
      )}
    </section>
  )
}
