import { computed, reactive, ref } from 'vue'

/** The pieces of an answer, in the order in which they come. */
export type Piece = 'check' | 'simulation' | 'sweep' | 'changes'

/** How long a piece may be missing before it is marked as old, in milliseconds: shorter, a quick answer would flicker. */
const grace = 60

/** How long a reader waits for a check before the page says that none came, in milliseconds. */
const patience = 3000

/**
 * Tells which pieces of the shown answer belong to what stands in the form. A piece that is missing is marked as old
 * within a tenth of a second of the change, however fast one change follows another.
 */
export function useFreshness() {
  const turn = ref(0)
  const got = reactive<Record<Piece, number>>({ check: 0, simulation: 0, sweep: 0, changes: 0 })
  const marked = reactive<Record<Piece, boolean>>({
    check: false,
    simulation: false,
    sweep: false,
    changes: false,
  })
  const isLate = ref(false)
  const timers: Partial<Record<Piece | 'patience', ReturnType<typeof setTimeout>>> = {}
  const pieces = Object.keys(got) as Piece[]

  function stop(name: Piece | 'patience') {
    clearTimeout(timers[name])
    delete timers[name]
  }

  return {
    /** Number of the choice that stands in the form. */
    turn: computed(() => turn.value),
    /** Whether a piece belongs to that choice. */
    has: (piece: Piece) => got[piece] === turn.value,
    /** Whether a piece has to be marked as old. */
    isMarked: (piece: Piece) => marked[piece],
    /** Whether the check is overdue. */
    isLate: computed(() => isLate.value),
    /** The form has changed. Gives the number of the new choice. */
    change(): number {
      turn.value++
      for (const piece of pieces) {
        timers[piece] ??= setTimeout(() => {
          marked[piece] = true
        }, grace)
      }
      stop('patience')
      isLate.value = false
      timers.patience = setTimeout(() => {
        isLate.value = true
      }, patience)
      return turn.value
    },
    /** A piece has come. */
    receive(piece: Piece, of: number) {
      got[piece] = of
      if (of !== turn.value) return
      stop(piece)
      marked[piece] = false
      if (piece !== 'check') return
      stop('patience')
      isLate.value = false
    },
    stop: () => {
      for (const piece of [...pieces, 'patience' as const]) stop(piece)
    },
  }
}
