import type { CutRolls } from '../../../geo/supports/cutRolls.ts'
import { From } from '../../ui/From.tsx'
import { lengthFigure, showCount, told } from '../show/figures.ts'
import { units } from '../state/farm.ts'

/** What is sold in rolls, and how they are cut over the runs. */
export function Rolls({ rolls }: { readonly rolls: readonly CutRolls[] }) {
  const m = (lengthM: number) => told(lengthFigure(lengthM, units.value))
  if (rolls.length === 0) return null
  return (
    <>
      {rolls.map(({ part, rollM, cuts, wasteM, best }) => (
        <div key={`${part} ${rollM}`} class="rolls">
          <h3>
            {part}: {showCount(cuts.length)} {cuts.length === 1 ? 'roll' : 'rolls'} of {m(rollM)}, {m(wasteM)} left over
          </h3>
          <ol>
            {cuts.slice(0, 12).map((roll, n) => (
              <li key={n}>{roll.map((cutM) => m(cutM)).join(' + ')}</li>
            ))}
          </ol>
          {cuts.length > 12 && <p>and {showCount(cuts.length - 12)} rolls more, all of them on the printed list</p>}
          {!best && <p class="hint">A packing with fewer rolls may be possible; none was found in the time given.</p>}
        </div>
      ))}
      <From about="the cutting of rolls">
        Each line of each run is one piece. Pieces are packed into rolls longest first, then by search for fewer rolls.
        A piece longer than a roll takes whole rolls and is joined.
      </From>
    </>
  )
}
