import { From } from '../../ui/From.tsx'
import { Progress } from '../../ui/Progress.tsx'
import { showCount } from '../show/figures.ts'
import { yieldGround } from '../state/yieldGround.ts'
import { yieldCompared, yieldMoreFault } from '../state/yieldMore.ts'
import { ComparedTable } from './ComparedTable.tsx'
import { groundWords } from './groundWords.ts'

const BY = { system: 'Support against support', variety: 'Variety against variety', side: 'Side against side' } as const

/** Systems, varieties and sides set against each other within crops, with how sure that is. */
export function Compared() {
  const all = yieldCompared.value
  const { seasons, of } = yieldGround.value
  if (!all) return yieldMoreFault.value ? null : <Progress doing="Setting plantings against each other" />
  if (all.comparisons.length === 0)
    return (
      <p class="first-steps">
        <strong>There is nothing to set against each other in {groundWords(seasons, of)}.</strong> It takes two
        supports, varieties or sides of one crop, picked by planting.
      </p>
    )
  const sure = all.comparisons.filter(({ told }) => told !== null)
  const untold = all.comparisons.length - sure.length
  return (
    <section aria-label="Set against each other">
      <h2>Set against each other</h2>
      {sure.length > 0 && (
        <ComparedTable
          caption={`What gave more, ${groundWords(seasons, of)}`}
          rows={sure}
          group={({ cropName, by }) => `${cropName}: ${BY[by].toLowerCase()}`}
        />
      )}
      {untold > 0 && <p>{showCount(untold)} more have too few beds: too little to tell.</p>}
      <From about="these comparisons">
        {all.rule} The one that gave more stands first. Apart by: the difference lies there 95 times of 100. Other
        things differ too: bed, planting day, who picked.
      </From>
    </section>
  )
}
