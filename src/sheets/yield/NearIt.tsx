import { nearWords } from '../../../geo/yield/near/words.ts'
import { From } from '../../ui/From.tsx'
import { Progress } from '../../ui/Progress.tsx'
import { accuracyFigure, showCount, told } from '../show/figures.ts'
import { units } from '../state/farm.ts'
import { yieldMoreFault, yieldNear } from '../state/yieldMore.ts'
import { PartialFigure } from './PartialFigure.tsx'

/** How yield goes with what lies near, in words that claim no cause; the surest first. */
export function NearIt() {
  const all = yieldNear.value
  if (!all) return yieldMoreFault.value ? null : <Progress doing="Looking at what lies near every plot" />
  const long = (metres: number) => told(accuracyFigure(metres, units.value))
  const sure = all.effects.filter(({ tells }) => tells.startsWith('goes'))
  const unsure = all.effects.filter(({ tells }) => tells === 'no link that is sure')
  const untold = all.effects.filter(({ tells }) => tells === 'too little to tell')
  const plots = new Map(all.partial.map((partial) => [partial.id, partial]))
  const list = (effects: typeof sure) => (
    <ul class="notes">
      {effects.map((effect) => (
        <li key={effect.id}>
          {nearWords(effect, long)}
          {effect.kind === 'seen' && ' What was seen is a sign and may itself come of something else.'}
          {effect.alike.length > 0 &&
            ` It can’t be told apart from ${effect.alike.join(', ')}: they lie alike on this ground.`}
          {plots.has(effect.id) && <PartialFigure effect={effect} partial={plots.get(effect.id)!} />}
        </li>
      ))}
    </ul>
  )
  return (
    <section aria-label="What lies near">
      <h2>What yield goes with</h2>
      <p>
        Held against {showCount(all.plots)} plots. What goes together is not thereby cause and effect: it is a place to
        look.
      </p>
      {all.tooLittle !== null && <p>{all.tooLittle}</p>}
      {sure.length > 0 ? list(sure) : all.tooLittle === null && <p>Nothing that lies near goes with yield for sure.</p>}
      {unsure.length > 0 && (
        <details>
          <summary>{showCount(unsure.length)} without a link that is sure</summary>
          {list(unsure)}
        </details>
      )}
      {untold.length > 0 && (
        <details>
          <summary>{showCount(untold.length)} with too little to tell</summary>
          {list(untold)}
        </details>
      )}
      {all.partialMethod !== '' && <p class="hint">{all.partialMethod}</p>}
      <From about="these links">
        {all.method} A dot in a drawing is a plot of ground: what the model leaves of its index, added to the line
        (Larsen & McCleary 1972, Technometrics 14:781–790); so it shows whether few plots make the link, and whether it
        is straight.
      </From>
    </section>
  )
}
