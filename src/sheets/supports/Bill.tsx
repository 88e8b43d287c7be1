import { useState } from 'preact/hooks'
import { Choice } from '../../ui/Choice.tsx'
import { Figure } from '../../ui/Figure.tsx'
import { From } from '../../ui/From.tsx'
import { lengthFigure, showCount, told } from '../show/figures.ts'
import { showMinutes, showMoney } from '../show/money.ts'
import { assumed } from '../state/assumed.ts'
import { units } from '../state/farm.ts'
import { type Scope, scopeAsked } from '../state/supports.ts'
import { LabourEntry, MinutesChoice } from './AssumedEntry.tsx'
import { InStoreDialog } from './InStoreDialog.tsx'
import { PartTable } from './PartTable.tsx'
import { bill, scope, scopeName, scopeRuns, scopes } from './scope.ts'
import { printShopping, saveBillCsv } from './shopping.ts'

const SCOPE_WORD: Readonly<Record<Scope, string>> = { run: 'this run', field: 'its field', farm: 'farm' }

/** What the run, field or farm takes: parts, rolls with their cuts, cost and labour, and what is to be bought of it. */
export function Bill() {
  const [storing, setStoring] = useState(false)
  const m = (lengthM: number) => told(lengthFigure(lengthM, units.value))
  const { parts, rolls, costNow, costPerSeason, minutesPerSeason, puttingUpMinutes } = bill.value
  const count = scopeRuns.value.length
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
      <h2>What {scopeName.value} takes</h2>
      {count === 0 ? (
        <p class="hint">No run stands here on this day. Tap a run on the map for a bill of it alone.</p>
      ) : (
        <>
          <Figure
            value={showMoney(costNow, 0)}
            unit=""
            from={`Parts bought new, without labour. A season: every part’s cost over the seasons it lasts, and labour at ${showMoney(assumed.value.labourPerHour)} an hour, its putting up and taking down spread over the seasons that a run is left up. Prices are those of the farm’s systems.`}
          >
            for the parts of {showCount(count)} {count === 1 ? 'run' : 'runs'}; {showMoney(costPerSeason, 0)} a season
            with {showMinutes(minutesPerSeason)} of labour; putting up takes {showMinutes(puttingUpMinutes)}
          </Figure>
          <LabourEntry />
          <MinutesChoice />
          <PartTable parts={parts} />
          {rolls.map(({ part, rollM, cuts, wasteM, best }) => (
            <div key={`${part} ${rollM}`} class="rolls">
              <h3>
                {part}: {showCount(cuts.length)} {cuts.length === 1 ? 'roll' : 'rolls'} of {m(rollM)}, {m(wasteM)} left
                over
              </h3>
              <ol>
                {cuts.slice(0, 12).map((roll, n) => (
                  <li key={n}>{roll.map((cutM) => m(cutM)).join(' + ')}</li>
                ))}
              </ol>
              {cuts.length > 12 && <p>and {showCount(cuts.length - 12)} rolls more, all of them on the printed list</p>}
              {!best && (
                <p class="hint">A packing with fewer rolls may be possible; none was found in the time given.</p>
              )}
            </div>
          ))}
          {rolls.length > 0 && (
            <From about="the cutting of rolls">
              Each line of each run is one piece. Pieces are packed into rolls longest first, then by search for fewer
              rolls. A piece longer than a roll takes whole rolls and is joined.
            </From>
          )}
          <p class="deeds">
            <button type="button" class="first-deed" onClick={printShopping}>
              Shopping list
            </button>
            <button type="button" onClick={saveBillCsv}>
              Save as CSV
            </button>
            <button type="button" onClick={() => setStoring(true)}>
              What is in store
            </button>
          </p>
        </>
      )}
      {storing && <InStoreDialog onClose={() => setStoring(false)} />}
    </section>
  )
}
