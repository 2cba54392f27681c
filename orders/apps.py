from django.apps import AppConfig


class OrdersConfig(AppConfig):
    name = "orders"
    label = "orders"
    verbose_name = "Workshop"
