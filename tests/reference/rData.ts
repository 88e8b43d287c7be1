import { execFileSync, spawnSync } from 'node:child_process'
import { existsSync } from 'node:fs'

/** A data set as R holds it: numbers of each column asked for, and the text of `label`. */
export type RTable = {
  readonly labels: readonly string[]
  readonly columns: Readonly<Record<string, readonly number[]>>
}

const DEBIAN_PACKAGES = ['r-base-core', 'r-cran-nlme', 'r-cran-spdata']

/** Whether R can be asked for data of `nlme` and `spData`; as root on Debian they are installed if they are not there. */
export function rWithData(): boolean {
  if (hasPackages()) return true
  const isRoot = process.getuid?.() === 0
  if (!isRoot || !existsSync('/etc/debian_version')) return false
  const env = { ...process.env, DEBIAN_FRONTEND: 'noninteractive' }
  const wait = ['-o', 'DPkg::Lock::Timeout=300', '-q', '-y']
  spawnSync('apt-get', [...wait, 'update'], { env, stdio: 'ignore', timeout: 120_000 })
  const install = ['install', '--no-install-recommends', ...DEBIAN_PACKAGES]
  spawnSync('apt-get', [...wait, ...install], { env, stdio: 'ignore', timeout: 400_000 })
  return hasPackages()
}

function hasPackages(): boolean {
  const test = 'stopifnot(requireNamespace("nlme"), requireNamespace("spData"))'
  return spawnSync('Rscript', ['--vanilla', '-e', test], { stdio: 'ignore' }).status === 0
}

/** Reads columns of a data frame that the R expression `frame` gives; `label` is an expression over it (`d`). */
export function readRTable(frame: string, columns: readonly string[], label: string): RTable {
  const numbers = columns.map((column) => `sprintf("%.17g", d$${column})`).join(', ')
  const script = `d <- ${frame}; cat(paste(${label}, ${numbers}, sep = "\\t"), sep = "\\n")`
  const lines = execFileSync('Rscript', ['--vanilla', '-e', script], { encoding: 'utf8' }).trim().split('\n')
  const cells = lines.map((line) => line.split('\t'))
  return {
    labels: cells.map((row) => row[0]!),
    columns: Object.fromEntries(columns.map((column, k) => [column, cells.map((row) => Number(row[k + 1]))])),
  }
}
