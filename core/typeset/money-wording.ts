import money from '../../templates/wording/money.json' with { type: 'json' };

/** The standing words of the cost breakdown and the draw request. They stand in templates/, as data. */
export const moneyWording = money;
