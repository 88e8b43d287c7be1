import { type LoadCheck, loadCheck } from '../../../geo/supports/load/loadCheck.ts'
import { remedies } from '../../../geo/supports/load/remedies.ts'
import { windPressurePa } from '../../../geo/supports/load/wind.ts'
import { VINES_SOURCE } from '../../../geo/supports/vines.ts'
import { From } from '../../ui/From.tsx'
import { type Column, Table } from '../../ui/Table.tsx'
import { CAUTIONS } from '../cautions.ts'
import { lengthFigure, METRES_PER_FOOT, showCount, showNumber, showShare, told } from '../show/figures.ts'
import { ASSUMED, assume, assumed } from '../state/assumed.ts'
import { choose } from '../state/chosen.ts'
import { units } from '../state/farm.ts'
import { AssumedEntry } from './AssumedEntry.tsx'
import { allRuns, billedRun, chosenRun, loadOf, type SeenOfSystem, whereOf } from './scope.ts'

const POUND_N = 4.4482216152605
const MILE_PER_HOUR = 0.44704

const force = (newtons: number) =>
  units.value === 'us' ? `${showNumber(newtons / POUND_N, 0)} lb` : `${showNumber(newtons, 0)} N`

/** What the run whose card is open bears, or which of all bear most; with what is assumed, and when to ask. */
export function Load() {
  const run = chosenRun.value
  return (
    <section aria-label="Load check">
      <h2>{run ? `What the run in ${whereOf(run.run)} bears` : 'What runs bear'}</h2>
      <p class="note">
        <strong>An indication, never a design.</strong> {CAUTIONS.supports[1]}
      </p>
      <Assumptions run={run} />
      {run ? <OneRun of={run} /> : <AllRuns />}
      <WhenToAsk run={run} />
    </section>
  )
}

function Assumptions({ run }: { readonly run: SeenOfSystem | null }) {
  const us = units.value === 'us'
  const perSpeed = us ? MILE_PER_HOUR : 1
  const perLoad = us ? POUND_N / METRES_PER_FOOT : 1
  const typed = (value: number) => String(Number(value.toPrecision(4)))
  const load = run ? loadOf(run.run, assumed.value) : null
  const shares =
    load?.fruitNPerM == null || load.vinesNPerM == null
      ? ''
      : `, a season’s fruit ${typed(load.fruitNPerM / perLoad)} as if it hung at once and vines ${typed(load.vinesNPerM / perLoad)}`
  const from = {
    variety: 'what cleared plantings of its varieties gave on this farm, for the plants along the run',
    crop: 'what cleared plantings of its crops gave on this farm, for the plants along the run',
    'usual yield': 'the high end of what is usual of its crops, on the ground beside it',
    'own picks': 'what its own plantings gave by their picks, which is more than is usual of them',
    'design load':
      'the published design load of a trellis, 7 lb/ft (Univ. of Georgia): no yield tells of all that climbs here',
    typed: 'as typed here, for every run',
  }
  return (
    <div class="assumptions" data-print="no">
      <AssumedEntry
        label={`Gusts, ${us ? 'mph' : 'm/s'}`}
        hint={`${typed(ASSUMED.windMPerS / perSpeed)} is assumed; the local code’s wind stands above it.`}
        value={typed(assumed.value.windMPerS / perSpeed)}
        least={0}
        most={us ? 250 : 110}
        take={(value) => assume({ windMPerS: (value ?? 0) * perSpeed })}
      />
      <AssumedEntry
        label="Leafed side against a closed one"
        hint="Force coefficient; 0.5 is from memory, for leaves that give way and let wind through."
        value={typed(assumed.value.leafCoefficient)}
        least={0}
        most={3}
        take={(value) => assume({ leafCoefficient: value ?? 0 })}
      />
      <AssumedEntry
        label={`Vines and fruit, ${us ? 'lb for each ft' : 'N for each m'}`}
        hint={
          load
            ? `${typed(load.loadNPerM / perLoad)}${shares}: ${from[load.from]}. Empty takes what the records tell.`
            : 'Empty: what each run’s plantings are expected to give in a season, as if it hung at once, and their vines; else 7 lb/ft (102 N/m).'
        }
        value={assumed.value.loadNPerM === null ? '' : typed(assumed.value.loadNPerM / perLoad)}
        least={0}
        most={10_000}
        mayBeEmpty
        take={(value) => assume({ loadNPerM: value === null ? null : value * perLoad })}
      />
      <AssumedEntry
        label="Vines’ weight over that of their fruit"
        hint="Empty: by family, nightshades and cucurbits 1, legumes and all others 2.5; where from is told at the end."
        value={assumed.value.vinesPerFruit === null ? '' : typed(assumed.value.vinesPerFruit)}
        least={0}
        most={20}
        mayBeEmpty
        take={(vinesPerFruit) => assume({ vinesPerFruit })}
      />
    </div>
  )
}

const checkOf = ({ run, recipe }: SeenOfSystem): LoadCheck =>
  loadCheck(billedRun(run), recipe, loadOf(run, assumed.value))

function OneRun({ of }: { readonly of: SeenOfSystem }) {
  const load = loadOf(of.run, assumed.value)
  const { topLine, checks } = checkOf(of)
  const changes = remedies(billedRun(of.run), of.recipe, load)
  const m = (lengthM: number) => told(lengthFigure(lengthM, units.value))
  const first = checks[0]
  const [times, one] = [units.value === 'us' ? METRES_PER_FOOT : 1, units.value === 'us' ? 'ft' : 'm']
  return (
    <>
      {first ? (
        <p class={first.share >= 0.5 ? 'load-first amiss' : 'load-first'}>
          <strong>
            {first.share >= 1 ? `Gives way: ${first.what}` : `Gives first: ${first.what}`} ({first.part}), at{' '}
            {showShare(first.share)} of what breaks it.
          </strong>{' '}
          {first.share >= 0.5 && 'More than half leaves little for a gust, a knot or a rotten foot (common practice).'}
        </p>
      ) : (
        <p>
          Nothing can be reckoned: the system tells no thickness and strength of its wire or posts. Put them in with
          Systems, under the map.
        </p>
      )}
      {topLine && (
        <ul>
          <li>
            Top line ({topLine.part}) over {m(topLine.spanM)} from post to post, bearing{' '}
            {force(topLine.loadNPerM * times)} for each {one}: it sags {m(topLine.sagM)}
          </li>
          <li>
            It pulls with {force(topLine.tensionN)}; it breaks at {force(topLine.breakingN)},{' '}
            {showNumber(topLine.safety, 1)} times as much
          </li>
          {topLine.lines > 1 && (
            <li>
              Strained lines: {showCount(topLine.lines)}; each below the top one pulls with{' '}
              {force(topLine.othersTensionN)}
            </li>
          )}
          {topLine.assumed.map((words) => (
            <li key={words}>Assumed: {words}</li>
          ))}
        </ul>
      )}
      {checks.length > 1 && (
        <Table
          caption="Share of what breaks it"
          columns={[
            { head: 'what', cell: ({ what, part }) => `${what}: ${part}` },
            { head: 'share', number: true, cell: ({ share }) => showShare(share), sort: ({ share }) => share },
          ]}
          rows={checks}
          rowKey={({ what, part }) => `${what} ${part}`}
        />
      )}
      {changes.length > 0 && (
        <Table
          caption="What would change that most"
          columns={[
            { head: 'change, each alone', cell: ({ change }) => change },
            { head: 'then', number: true, cell: ({ share }) => showShare(share), sort: ({ share }) => share },
          ]}
          rows={changes}
          rowKey={({ change }) => change}
        />
      )}
      <From about="the load check">
        Sag and tension: an evenly loaded wire as an elastic parabola, d = wL²/8T, strained before it is loaded and
        stretching with it. Wind: q = 0.613·Kz·V² = {showNumber(windPressurePa(load.wind), 0)} Pa here (ASCE 7’s form,
        Kz 0.85), on the leafed side between two posts, bending each at the ground. End posts without a brace take the
        pull of every strained line at its height, lines spread evenly from the ground to the top, all that hangs on the
        top one. A planting’s own yield counts for others once it is cleared; picks told by bed or place, and those not
        noted, don’t count. {VINES_SOURCE} Soil is taken to hold posts, which wet soil may not.
      </From>
    </>
  )
}

interface Checked extends SeenOfSystem {
  readonly share: number | null
  readonly what: string
}

function AllRuns() {
  const rows = allRuns.value
    .map((one): Checked => {
      const first = checkOf(one).checks[0]
      return { ...one, share: first?.share ?? null, what: first?.what ?? 'sizes not known' }
    })
    .sort((a, b) => (b.share ?? -1) - (a.share ?? -1))
  const columns: readonly Column<Checked>[] = [
    { head: 'where', cell: ({ run }) => whereOf(run), sort: ({ run }) => whereOf(run) },
    { head: 'system', cell: ({ recipe }) => recipe.name, sort: ({ recipe }) => recipe.name },
    { head: 'gives first', cell: ({ what }) => what, sort: ({ what }) => what },
    {
      head: 'at',
      number: true,
      cell: ({ share }) => (share === null ? '–' : <span class={share >= 0.5 ? 'amiss' : ''}>{showShare(share)}</span>),
      sort: ({ share }) => share,
    },
  ]
  return (
    <>
      <Table
        caption="Runs, the one that is strained most first; tap one to see why"
        columns={columns}
        rows={rows}
        rowKey={({ run }) => run.id}
        onChoose={({ run }) => void choose({ kind: 'supports', id: run.id })}
        few={12}
      />
      <From about="the share of each run">
        The part that gives first, and how much of what breaks it it bears. {VINES_SOURCE}
      </From>
    </>
  )
}

/** Where reckoning ends: height of the run that is looked at, or of the highest. */
function WhenToAsk({ run }: { readonly run: SeenOfSystem | null }) {
  const heights = (run ? [run] : allRuns.value).map(({ run: one, recipe }) => one.heightM ?? recipe.heightM ?? 0)
  const high = Math.max(0, ...heights)
  const asked = units.value === 'us' ? '10 ft' : '3 m'
  return (
    <div class="when-to-ask">
      <h3>Ask a licensed person</h3>
      {high > 3 && (
        <p class="amiss">
          <strong>
            {run ? 'This run is' : 'A run here is'} {told(lengthFigure(high, units.value))} high: ask before it is
            built.
          </strong>
        </p>
      )}
      <ul>
        <li>if people pass or work under it, or a building or another structure depends on it</li>
        <li>if it is higher than about {asked}</li>
        <li>if it stands near a road, a public path or a power line, or could fall on one</li>
        <li>if it carries a roof, shade cloth, hail net or film, or snow may lie on it</li>
      </ul>
      <p>Common practice; the local code stands above it.</p>
    </div>
  )
}
