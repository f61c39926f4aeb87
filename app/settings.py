"""Settings from the environment (PROOFBAY_…), read once at the edges."""

from __future__ import annotations

from pathlib import Path

from pydantic_settings import BaseSettings, SettingsConfigDict

PROJECT = Path(__file__).parents[1]
"""The checkout: templates, static files, rules, demo and migrations lie here (editable install)."""


class Settings(BaseSettings):
    """`data_dir` holds the database; `database_url` overrides where it lies; `host`, `port`: where the app listens."""

    model_config = SettingsConfigDict(env_prefix="PROOFBAY_")

    data_dir: Path = PROJECT / ".data"
    database_url: str = ""
    rules_dir: Path = PROJECT / "seed_data" / "rules"
    site_id: str = "main"
    host: str = "127.0.0.1"
    port: int = 8000

    @property
    def own_rules_dir(self) -> Path:
        """The shop's own rules, laid over the supplied ones."""
        return self.data_dir / "rules"

    @property
    def photos_dir(self) -> Path:
        """The pictures that belong to entries."""
        return self.data_dir / "photos"

    @property
    def database(self) -> str:
        return self.database_url or f"sqlite:///{self.data_dir / 'proofbay.db'}"
