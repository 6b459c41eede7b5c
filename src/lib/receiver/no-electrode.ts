/** In place of an electrode that the valve of this set has not: the oscillator anode of a pentagrid that swings without one. */
export const NO_ELECTRODE = 'none';
