import { loadCheck } from '../../../geo/supports/load/loadCheck.ts'
import { sumBills } from '../../../geo/supports/sumBills.ts'
import { showCount, showShare } from '../show/figures.ts'
import { showMinutes, showMoney } from '../show/money.ts'
import { assumed } from '../state/assumed.ts'
import { doEdits } from '../state/steps.ts'
import { PartTable } from './PartTable.tsx'
import { ReuseChips } from './ReuseChips.tsx'
import { billed, billedRun, chosenRun, loadOf } from './scope.ts'

/** On the card of a run: what it takes, costs and bears. */
export function RunOnCard() {
  const of = chosenRun.value
  if (!of) return null
  const { parts, costNow, costPerSeason, minutesPerSeason } = sumBills([billed(of)], assumed.value.labourPerHour)
  const first = loadCheck(billedRun(of.run), of.recipe, loadOf(of.run, assumed.value)).checks[0]
  const posts = of.run.posts.reduce((sum, { count }) => sum + count, 0)
  const there = Object.values(of.run.postsThere).reduce((sum, count) => sum + count, 0)
  return (
    <>
      <dl class="lines">
        <div>
          <dt>posts</dt>
          <dd>
            {showCount(posts)}
            {there > 0 && `, and ${showCount(there)} that stood already`}
          </dd>
        </div>
        <div>
          <dt>parts, new</dt>
          <dd>{showMoney(costNow)}</dd>
        </div>
        <div>
          <dt>a season</dt>
          <dd>
            {showMoney(costPerSeason)}, {showMinutes(minutesPerSeason)}
          </dd>
        </div>
        {first && (
          <div>
            <dt>gives first</dt>
            <dd>
              {first.what}, at {showShare(first.share)} of what breaks it
            </dd>
          </div>
        )}
      </dl>
      <PartTable parts={parts} />
      {(of.run.wouldServe.anyPost > 0 || of.run.reusePosts !== null) && (
        <ReuseChips
          chosen={of.run.reusePosts ?? 'none'}
          wouldServe={of.run.wouldServe}
          onTap={(reuse_posts) =>
            void doEdits('Posts that stand already', [
              { do: 'change', kind: 'supports', id: of.run.id, to: { reuse_posts } },
            ])
          }
        />
      )}
    </>
  )
}
