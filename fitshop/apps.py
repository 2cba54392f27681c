from django.apps import AppConfig


class ShopConfig(AppConfig):
    name = "fitshop"
    label = "shop"
    verbose_name = "Shop"
