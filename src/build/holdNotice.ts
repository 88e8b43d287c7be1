import { readFile } from 'node:fs/promises'
import type { Plugin } from 'vite'
import { packageOf } from './notice/packages.ts'

/** Fails a build that holds a package which the notice does not name. Needed among the worker's plugins too. */
export function holdNotice(): Plugin {
  return {
    name: 'selion-hold-notice',
    apply: 'build',
    async generateBundle(_options, bundle) {
      const notice = await readFile(new URL('../NOTICE.txt', import.meta.url), 'utf8')
      const modules = Object.values(bundle).flatMap((file) =>
        file.type === 'chunk' ? file.moduleIds : file.originalFileNames,
      )
      const missing = packagesNotNamed(notice, modules)
      if (missing.length > 0) this.error(`src/NOTICE.txt does not name ${missing.join(', ')}: npm run notice`)
    },
  }
}

/** The packages that modules lie in, by their paths, of those that the notice does not name. */
export function packagesNotNamed(notice: string, paths: readonly string[]): string[] {
  const within = paths.flatMap((path) => /.*[/\\]node_modules[/\\](?!\.)(.+)/.exec(path)?.[1] ?? [])
  const names = new Set(within.flatMap((path) => packageOf(path.replaceAll('\\', '/')) ?? []))
  return [...names].filter((name) => !notice.includes(`\n${name} `))
}
