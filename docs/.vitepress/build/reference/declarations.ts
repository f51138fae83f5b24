import ts from 'typescript'
import { once } from '../once.ts'
import { commentsOf, type Said } from './comments.ts'
import { type Entry, entries } from './entries.ts'

/** A parameter of a function, or a field of a type. */
export interface Named {
  readonly name: string
  readonly type: string
  readonly optional: boolean
  readonly meaning: string
}

/** What an entry exports, as its declarations say. */
export interface Exported {
  readonly name: string
  readonly kind: 'function' | 'class' | 'type' | 'value'
  /** What it is for, in Markdown with `{@link …}` in it. */
  readonly summary: string
  readonly parameters: readonly Named[]
  readonly returns: { readonly type: string; readonly meaning: string }
  readonly throws: readonly string[]
  readonly members: readonly Named[]
  /** The declaration of a type, or the type of a value, as written. */
  readonly text: string
}

const comments = await once('comments', () => commentsOf(entries.map(({ types }) => types)))

/** What each entry exports, in the order in which it does: what is said of it by typedoc, its types as the compiler has them. */
export const declarations = (): ReadonlyMap<Entry, readonly Exported[]> => once('declarations', declared)

function declared(): ReadonlyMap<Entry, readonly Exported[]> {
  const program = ts.createProgram({
    rootNames: entries.map(({ types }) => types),
    options: { module: ts.ModuleKind.NodeNext, moduleResolution: ts.ModuleResolutionKind.NodeNext, skipLibCheck: true },
  })
  const checker = program.getTypeChecker()
  return new Map(
    entries.map((entry) => {
      const module = checker.getSymbolAtLocation(program.getSourceFile(entry.types)!)!
      const said = comments.get(entry.types)!
      return [
        entry,
        checker.getExportsOfModule(module).flatMap((symbol) => exportedBy(checker, symbol, said.get(symbol.name))),
      ]
    }),
  )
}

function exportedBy(checker: ts.TypeChecker, alias: ts.Symbol, said: Said | undefined): Exported[] {
  const symbol = alias.flags & ts.SymbolFlags.Alias ? checker.getAliasedSymbol(alias) : alias
  const declaration = symbol.declarations?.[0]
  if (!declaration) return []
  const signature = signatureOf(declaration)
  if (!said) throw new Error(`typedoc knows no ${alias.name}`)
  return [
    {
      name: alias.name,
      kind: signature
        ? 'function'
        : ts.isClassDeclaration(declaration)
          ? 'class'
          : symbol.flags & ts.SymbolFlags.Value
            ? 'value'
            : 'type',
      summary: said.summary,
      parameters: (signature?.parameters ?? []).map((one) => ({
        name: one.name.getText(),
        type: textOf(one.type),
        optional: one.questionToken !== undefined,
        meaning: said.parts.get(one.name.getText()) ?? '',
      })),
      returns: { type: textOf(signature?.type), meaning: said.returns },
      throws: said.throws,
      members: membersOf(declaration, said),
      text: shapeOf(declaration),
    },
  ]
}

/** The parameters and the result of a function, or of a constant that is one. */
function signatureOf(declaration: ts.Declaration): ts.SignatureDeclaration | undefined {
  if (ts.isFunctionDeclaration(declaration)) return declaration
  if (!ts.isVariableDeclaration(declaration) || !declaration.type) return undefined
  return ts.isFunctionTypeNode(declaration.type) ? declaration.type : undefined
}

function membersOf(declaration: ts.Declaration, said: Said): Named[] {
  const members =
    ts.isInterfaceDeclaration(declaration) || ts.isClassDeclaration(declaration)
      ? declaration.members
      : ts.isTypeAliasDeclaration(declaration) && ts.isTypeLiteralNode(declaration.type)
        ? declaration.type.members
        : []
  return [...members].flatMap((member) => {
    const isSaid = ts.isPropertySignature(member) || ts.isPropertyDeclaration(member) || ts.isMethodSignature(member)
    if (!isSaid) return []
    return [
      {
        name: member.name.getText(),
        type: ts.isMethodSignature(member) ? member.getText() : textOf(member.type),
        optional: member.questionToken !== undefined,
        meaning: said.parts.get(member.name.getText()) ?? '',
      },
    ]
  })
}

/** What a type is made of beside its members: what it extends, or what it is another name for. */
function shapeOf(declaration: ts.Declaration): string {
  if (ts.isInterfaceDeclaration(declaration) || ts.isClassDeclaration(declaration))
    return (declaration.heritageClauses ?? []).map((clause) => clause.getText()).join(' ')
  if (ts.isTypeAliasDeclaration(declaration)) return textOf(declaration.type)
  return ts.isVariableDeclaration(declaration) ? textOf(declaration.type) : ''
}

const textOf = (node: ts.Node | undefined): string => node?.getText().replace(/\s+/g, ' ') ?? ''
