import type { SitingProblem } from '../../../geo/siting/problem.ts'

/** One bed's way through the years, as money and metres. */
interface Way {
  readonly money: number
  readonly first: number
  readonly permanent: readonly number[]
  readonly pulled: readonly number[]
}

/**
 * The least that any choice costs, by trying every one: for the solver's test, and written without it. Null where none
 * meets what is wanted, the fixed rows and the budget.
 */
export function tryAll(problem: SitingProblem): number | null {
  const { years, families, beds, budget, insteadPerM, usePerM } = problem
  const cells = families.length * years
  const ways = beds.map((bed): Way[] => {
    const found: Way[] = []
    const sequences: number[][] = []
    const grow = (sequence: number[]) => {
      if (sequence.length === years) return void sequences.push(sequence)
      for (let f = -1; f < families.length; f++) {
        const t = sequence.length
        if (f >= 0) {
          const { waits: told } = problem
          const waits = (g: number) => (told ? told[g]![f]! : g === f ? families[f]!.returnYears : 0)
          if (t < bed.freeFrom[f]! || sequence.some((g, s) => g >= 0 && t - s < waits(g))) continue
          if (bed.burden[f]![t] === Number.POSITIVE_INFINITY) continue
        }
        grow([...sequence, f])
      }
    }
    grow([])
    for (const sequence of sequences)
      for (let s = -1; s < bed.sites.length; s++)
        for (let built = s < 0 ? years : bed.sites[s]!.earliest; built < (s < 0 ? years + 1 : years); built++) {
          if (s < 0 && bed.fixed) continue
          const site = s < 0 ? null : bed.sites[s]!
          const [permanent, pulled] = [new Array<number>(cells).fill(0), new Array<number>(cells).fill(0)]
          let money = site ? site.cost[built]! + site.weighed[built]! : 0
          sequence.forEach((f, t) => {
            if (f < 0) return
            money += bed.burden[f]![t]!
            if (t >= built) {
              permanent[f * years + t]! += bed.lengthM
              pulled[f * years + t]! += (bed.rows - 1) * bed.lengthM
            } else pulled[f * years + t]! += bed.rows * bed.lengthM
          })
          found.push({ money, first: site?.first ?? 0, permanent, pulled })
        }
    return found
  })
  let best: number | null = null
  const [permanent, pulled] = [new Float64Array(cells), new Float64Array(cells)]
  const choose = (n: number, money: number, spent: number) => {
    if (budget !== null && spent > budget + 1e-9) return
    if (n < beds.length) {
      for (const way of ways[n]!) {
        for (let c = 0; c < cells; c++) {
          permanent[c]! += way.permanent[c]!
          pulled[c]! += way.pulled[c]!
        }
        choose(n + 1, money + way.money, spent + way.first)
        for (let c = 0; c < cells; c++) {
          permanent[c]! -= way.permanent[c]!
          pulled[c]! -= way.pulled[c]!
        }
      }
      return
    }
    let sum = money
    for (let c = 0; c < cells; c++) {
      const { needM } = families[Math.floor(c / years)]!
      const [low, high] = [Math.max(0, needM - pulled[c]!), Math.min(needM, permanent[c]!)]
      if (low > high + 1e-9) return
      const used = usePerM < insteadPerM ? high : low
      sum += used * usePerM + (needM - used) * insteadPerM
    }
    if (best === null || sum < best) best = sum
  }
  choose(0, 0, 0)
  return best
}
