import type { Plugin } from 'vite'

/**
 * Under vitest each use of an imported name is a call of an accessor: a fifth to a third of the time of the tests that
 * calculate, and the compiler can't look behind it, so that a check took two to four times as long as on the built
 * packages. Here each module of the packages reads its imports once, into constants of its own. That needs no circle of
 * imports, which `workspace/layers.test.ts` holds.
 */
export function importsAsConstants(): Plugin {
  return {
    name: 'imports-as-constants',
    transform: {
      filter: { id: /\/packages\/[a-z]+\/src\/.*\.ts$/ },
      handler(code) {
        const imports = this.parse(code).body.filter((node) => node.type === 'ImportDeclaration')
        let made = code
        // From the last to the first, so that the places of the others stay.
        for (const [k, { start, end, specifiers, source }] of [...imports.entries()].reverse()) {
          const names = specifiers.map((one) => {
            if (one.type === 'ImportNamespaceSpecifier') return `...${one.local.name}`
            if (one.type === 'ImportDefaultSpecifier') return `default: ${one.local.name}`
            return one.imported.type === 'Identifier' ? `${one.imported.name}: ${one.local.name}` : undefined
          })
          if (names.length === 0 || names.includes(undefined)) continue
          // The lines stay where they are, so that the map of the sources still holds.
          const lines = '\n'.repeat(code.slice(start, end).split('\n').length - 1)
          const text = `import * as imported${k} from ${source.raw}; const { ${names.join(', ')} } = imported${k};${lines}`
          made = made.slice(0, start) + text + made.slice(end)
        }
        return { code: made, map: null }
      },
    },
  }
}
