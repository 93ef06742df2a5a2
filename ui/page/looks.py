"""Colours and spaces of the page, light and dark, as settings of its server."""

LOOKS = {
    "theme.paddingTop": "0.5rem",
    "theme.paddingBottom": "2rem",
    "theme.headingFontSizes": ["1.5rem", "1.25rem", "1.1rem", "1rem", "1rem", "1rem"],
    "theme.showWidgetBorder": True,
    "theme.light.primaryColor": "#0a5a9c",
    "theme.light.secondaryBackgroundColor": "#f1f4f6",
    "theme.light.textColor": "#1d2126",
    "theme.light.borderColor": "#8a949d",
    "theme.light.yellowTextColor": "#5c4300",
    "theme.light.orangeTextColor": "#7a3500",
    "theme.light.greenTextColor": "#155227",
    "theme.light.redTextColor": "#8c1710",
    "theme.light.blueTextColor": "#0a4a80",
    "theme.dark.primaryColor": "#6cb4f0",
    "theme.dark.backgroundColor": "#14181c",
    "theme.dark.secondaryBackgroundColor": "#20262c",
    "theme.dark.textColor": "#eef1f3",
    "theme.dark.borderColor": "#6d7883",
}
