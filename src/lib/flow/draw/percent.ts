/** A share, 0 to 1, in whole percent; "under 1 %" where it is next to nothing. */
export const percent = (share: number): string =>
	share < 0.005 ? 'under 1 %' : `${Math.round(share * 100)} %`;
