/**
 * A set whose bias is made in the HT negative lead: HT negative stands below the chassis by the bias, and the sheet reads to the
 * chassis. So the survey asks for one place more. Its id stands in stored jobs.
 */
export const HT_NEGATIVE = { id: 'ht.negative', title: 'HT negative, at the bias resistor' } as const;
