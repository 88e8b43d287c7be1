import type { Reason } from './answer.ts'
import { standingWords } from './bedTaken.ts'
import type { Plan } from './problem.ts'
import { renewalMoney } from './renewals.ts'
import type { BedSeen, SiteSeen, SitingReading } from './sitingReading.ts'
import { type IsCounted, priceBed } from './solver/price.ts'
import type { Solved } from './solver/solve.ts'
import { waitingOf } from './solver/waiting.ts'

/**
 * Why each place for a support was taken or left. What doing without it or taking it would cost is told by the program
 * solved with plans in parts: the bed's price, and the least reduced cost of a plan that builds there. Both are bounds:
 * at least so much, taken alone. Of a plan with a side condition (`isCounted` is what it counts) they hold among the
 * plans that keep it.
 */
export function reasonsOf(
  reading: SitingReading,
  { plan, relaxed }: Pick<Solved, 'plan' | 'relaxed'>,
  isCounted: IsCounted = () => false,
): Reason[] {
  const { problem, beds } = reading
  const waiting = waitingOf(problem)
  return beds.flatMap((bed, n) => {
    const own = problem.beds[n]!
    const taken = takenSide(reading, plan, n)
    return bed.sites.map((site) => {
      const { side } = site
      if (side === taken)
        return { bed: bed.id, side, why: takenWords(reading, bed, site, own.fixed, -relaxed.prices.bed[n]!) }
      const words = (reason: string) => ({
        bed: bed.id,
        side,
        why: `Left: ${[reason, ...troubles(reading, bed, site)].join('; ')}.`,
      })
      if (site.forbidden) return words('it is forbidden')
      if (own.fixed) return words('another side of the bed is asked for')
      if (taken !== null) return words('another side of the bed is taken')
      const at = own.sites.findIndex((one) => one.side === side)
      const alone = {
        ...problem,
        beds: problem.beds.map((one, m) => (m === n ? { ...one, sites: [own.sites[at]!] } : one)),
      }
      const more = priceBed(alone, n, waiting[n]!, relaxed.prices, isCounted).leastBuilt
      return words(
        more < Number.POSITIVE_INFINITY
          ? more > 0.005
            ? `taking it would cost at least ${money(more)} more over the years`
            : 'taking it instead of another would cost about the same'
          : 'it can’t be built within these years',
      )
    })
  })
}

function takenSide({ problem }: SitingReading, plan: Plan, bed: number) {
  const own = plan.find((one) => one.bed === bed)
  return own && own.site !== null ? problem.beds[bed]!.sites[own.site]!.side : null
}

function takenWords(reading: SitingReading, bed: BedSeen, site: SiteSeen, fixed: boolean, worth: number): string {
  const renewing = renewalMoney(site.renewals, reading.asked.labour_per_hour)
  const what = site.stands
    ? [
        'a permanent support stands there already',
        ...(renewing > 0.005 ? [`renewing it takes ${money(renewing)}`] : []),
      ].join('; ')
    : `${Math.round(site.lengthM)} m in one run for ${money(site.first)}`
  const why = fixed
    ? 'it is asked for'
    : worth > 0.005
      ? `doing without it would cost about ${money(worth)} more over the years`
      : 'others would do as well'
  return `Taken: ${[what, why, ...troubles(reading, bed, site)].join('; ')}.`
}

/** What speaks against a place, or is to be done first. */
function troubles({ asked, sensitive }: SitingReading, bed: BedSeen, site: SiteSeen): string[] {
  const last = asked.from + asked.years - 1
  return [
    ...(bed.walnutFrom !== null && bed.walnutFrom <= last && sensitive.length > 0
      ? [
          `a walnut’s roots reach the bed from ${bed.walnutFrom} on, and ${sensitive.join(', ')} may be sensitive (evidence is disputed)`,
        ]
      : []),
    ...(bed.canopyFrom !== null && bed.canopyFrom <= last
      ? [`a canopy reaches over it from ${bed.canopyFrom} on`]
      : []),
    ...standingWords(bed.taken, bed.lots),
    ...(site.shade >= 0.5 ? [`it would take ${Math.round(site.shade)} m²·h of sun a day from beds`] : []),
    ...(site.windDeg !== null && site.windDeg > 45 ? [`it stands ${Math.round(site.windDeg)}° across the wind`] : []),
    ...(bed.index !== null && bed.index < 0.8
      ? [`the bed gave ${Math.round(bed.index * 100)} % of what was expected last season`]
      : []),
    ...(site.preferred ? ['it is preferred'] : []),
  ]
}

const money = (sum: number) => String(Math.round(sum))
